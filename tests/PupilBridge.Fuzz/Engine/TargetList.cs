using PupilBridge.Fuzz.Api;
using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Importing;
using PupilBridge.Fuzz.Journal;
using PupilBridge.Fuzz.Link;

namespace PupilBridge.Fuzz.Engine;

/// <summary>All targets: name, how one is made, and how much of it a long run and a short one give.</summary>
internal static class TargetList
{
    public static IReadOnlyList<TargetInfo> All { get; } =
    [
        new("codec", "lines", () => new CodecTarget(), Long: 100_000_000, Short: 150_000),
        new("framer", "lines", () => new FramerTarget(), Long: 10_000_000, Short: 60_000),
        new("host-link", "lines", () => new HostLinkTarget(), Long: 40_000_000, Short: 60_000),
        new("instrument-link", "lines", () => new InstrumentLinkTarget(), Long: 20_000_000, Short: 50_000),
        new("journal", "records", () => new JournalTarget(), Long: 10_000_000, Short: 20_000),
        new("sealed-journal", "journals", () => new SealedTarget(), Long: 2_000_000, Short: 6_000),
        new("key-file", "bodies", KeyFileBodies.Files, Long: 1_000_000, Short: 5_000),
        new("readings", "bodies", () => TableBodies.Readings(), Long: 1_000_000, Short: 5_000),
        new("discs", "bodies", TableBodies.Discs, Long: 1_000_000, Short: 5_000),
        new("entry", "bodies", EntryBodies.Entries, Long: 10_000_000, Short: 50_000),
        new("record", "bodies", DocumentBodies.Records, Long: 300_000, Short: 1_000),
        new("certificate", "bodies", DocumentBodies.Certificates, Long: 1_000_000, Short: 3_000),
        new("answer", "bodies", DocumentBodies.Answers, Long: 2_000_000, Short: 10_000),
        new("api", "bodies", () => new ApiTarget(), Long: 60_000, Short: 400),
        new("day-list", "bodies", DayListBodies.Lists, Long: 1_000_000, Short: 5_000),
    ];

    /// <summary>The target of a name; null if there is none.</summary>
    public static TargetInfo? Find(string name) => All.FirstOrDefault(target => target.Name == name);
}

/// <summary>One target.</summary>
/// <param name="Name">Its name on the command line, and of its folder of inputs that failed.</param>
/// <param name="Unit">What is counted.</param>
/// <param name="Make">Makes one, for one thread.</param>
/// <param name="Long">How many units a long run gives.</param>
/// <param name="Short">How many a run in everyday tests gives.</param>
internal sealed record TargetInfo(string Name, string Unit, Func<IFuzzTarget> Make, long Long, long Short);
