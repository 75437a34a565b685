using System.Collections.Immutable;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Simulator.Faults;

/// <summary>One fault that can be asked for.</summary>
/// <param name="Name">Its name.</param>
/// <param name="What">What goes wrong, in a few words.</param>
/// <param name="IsPartOfStorm">
/// Whether it belongs to "all at once". What an instrument is from the start and keeps (a clashing serial number, a newer
/// version) does not: under it there is no exam at all.
/// </param>
public sealed record FaultEntry(string Name, string What, bool IsPartOfStorm)
{
    internal Func<Chance, double, ByteFault>? ToHost { get; init; }

    internal Func<Chance, double, ByteFault>? FromHost { get; init; }

    internal Func<Chance, double, StageFault>? OnStage { get; init; }

    internal Func<InstrumentOptions, InstrumentOptions>? Options { get; init; }
}

/// <summary>All faults by name. The rates are ours: an exam of two minutes suffers each at least about once.</summary>
public static class FaultCatalogue
{
    /// <summary>The serial number that <see cref="FaultNames.SerialClash"/> claims.</summary>
    public static readonly SerialNumber ClashingSerial = new("QA-0001");

    /// <summary>All faults.</summary>
    public static ImmutableArray<FaultEntry> All { get; } =
    [
        Both(FaultNames.Flip, "single bits arrive turned over", (c, k) => new FlippedBits(k * 2e-4, c)),
        Both(FaultNames.Drop, "single bytes do not arrive", (c, k) => new DroppedBytes(k * 1e-4, c)),
        Both(FaultNames.Doubled, "single bytes arrive twice", (c, k) => new DoubledBytes(k * 1e-4, c)),
        Both(
            FaultNames.Delay,
            "the line stands still for up to 0.3 s",
            (c, k) => new DelayedBytes(k * 3e-4, Seconds(0.3), c)
        ),
        Both(FaultNames.Split, "reads end in the middle of lines", (c, _) => new SplitReads(c)),
        Both(FaultNames.Noise, "a few random bytes on the line", (c, k) => new LineNoise(Seconds(6 / k), c)),
        ToHost(FaultNames.Garbage, "long bursts of binary bytes", (c, k) => new BinaryGarbage(Seconds(25 / k), c)),
        ToHost(FaultNames.Overlong, "lines beyond the limit", (c, k) => new OverlongLine(Seconds(25 / k), c)),
        Both(
            FaultNames.Baud,
            "for a second and a half, the ends have different speeds",
            (c, k) => new WrongBaud(115_200, c.Happens(0.5) ? 57_600 : 230_400, Spells(c, 45 / k, 1.5))
        ),
        Stage(FaultNames.Unplug, "the cable is out for 3 s", (c, k) => new UnpluggedCable(Spells(c, 45 / k, 3))),
        Stage(FaultNames.Reboot, "the instrument starts anew", (c, k) => new SelfReboot(Seconds(80 / k), c)),
        Stage(
            FaultNames.PowerOff,
            "it is switched off, and on again after 5 s",
            (c, k) => new SwitchedOff(Spells(c, 90 / k, 5))
        ),
        Stage(
            FaultNames.Drift,
            "its clock runs up to 0.2 % fast or slow",
            (c, k) => new DriftingClock((c.Happens(0.5) ? 1 : -1) * k * c.NextBetween(200, 2000))
        ),
        Stage(
            FaultNames.Overflow,
            "more events at once than its memory holds",
            (c, k) => new MemoryOverflow(Seconds(80 / k), c)
        ),
        Stage(
            FaultNames.StuckScale,
            "a scale sticks for 4 s",
            (c, k) => new StuckScale(Spells(c, 6 / k, 4), c.Happens(0.5) ? Eye.Right : Eye.Left)
        ),
        Stage(
            FaultNames.UnknownEvent,
            "events of a kind that the protocol does not know",
            (c, k) => new UnknownEvent(Seconds(20 / k), c)
        ),
        new(FaultNames.SerialClash, "claims the serial number of another instrument (QA-0001)", IsPartOfStorm: false)
        {
            Options = o => o with { ClaimedSerial = ClashingSerial },
        },
        new(FaultNames.NewerVersion, "speaks only versions 2 and 3 of the protocol", IsPartOfStorm: false)
        {
            Options = o => o with { LowestVersion = 2, HighestVersion = 3 },
        },
    ];

    /// <summary>The names that belong to "all at once".</summary>
    public static ImmutableArray<string> Storm => [.. All.Where(f => f.IsPartOfStorm).Select(f => f.Name)];

    /// <summary>Finds a fault by its name, in any case.</summary>
    /// <param name="name">The name.</param>
    /// <returns>The fault; null if there is none.</returns>
    public static FaultEntry? Find(string name) =>
        All.FirstOrDefault(f => string.Equals(f.Name, name, StringComparison.OrdinalIgnoreCase));

    private static FaultEntry Both(string name, string what, Func<Chance, double, ByteFault> make) =>
        new(name, what, IsPartOfStorm: true) { ToHost = make, FromHost = make };

    private static FaultEntry ToHost(string name, string what, Func<Chance, double, ByteFault> make) =>
        new(name, what, IsPartOfStorm: true) { ToHost = make };

    private static FaultEntry Stage(string name, string what, Func<Chance, double, StageFault> make) =>
        new(name, what, IsPartOfStorm: true) { OnStage = make };

    private static Episodes Spells(Chance chance, double meanPause, double length) =>
        new(Seconds(meanPause), Seconds(length), chance);

    private static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);
}
