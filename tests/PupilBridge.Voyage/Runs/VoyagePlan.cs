using System.Globalization;
using PupilBridge.Simulator;

namespace PupilBridge.Voyage.Runs;

/// <summary>
/// Everything that one seed decides beforehand: how many instruments and exams, and how often what goes wrong. All times are
/// means, in virtual time.
/// </summary>
internal sealed record VoyagePlan
{
    public required long Seed { get; init; }

    /// <summary>How many instruments examine side by side, 1 to 3.</summary>
    public required int Instruments { get; init; }

    /// <summary>How many exams each of them does.</summary>
    public required int ExamsEach { get; init; }

    /// <summary>
    /// How often the examiner looks in after the first wait in the dark, notes it and waits again; 0 where an exam is short. Where nobody
    /// is in a hurry an exam lasts three times as long, and in an hour less befalls it.
    /// </summary>
    public int MoreWaits { get; init; }

    /// <summary>How often the faults of the line strike, relative to the simulator's catalogue; 0 for a sound line.</summary>
    public required double LineFaults { get; init; }

    /// <summary>The service dies: between two steps, or within an operation of the disk. Null for never.</summary>
    public TimeSpan? Deaths { get; init; }

    /// <summary>The power of the machine fails.</summary>
    public TimeSpan? PowerCuts { get; init; }

    /// <summary>Operations of the disk fail: one, or all for a while.</summary>
    public TimeSpan? DiskFailures { get; init; }

    /// <summary>The disk is full for a while.</summary>
    public TimeSpan? FullDisks { get; init; }

    /// <summary>The time of day is set.</summary>
    public TimeSpan? ClockSteps { get; init; }

    /// <summary>The service is stopped in order and started again.</summary>
    public TimeSpan? Restarts { get; init; }

    /// <summary>Bytes of old records change by themselves.</summary>
    public TimeSpan? Rot { get; init; }

    /// <summary>Whether journal and exam log are encrypted.</summary>
    public bool Encrypted { get; init; }

    /// <summary>The master key is changed.</summary>
    public TimeSpan? KeyChanges { get; init; }

    /// <summary>Whether what identifies patients is sealed under keys of their own, as the product does where it encrypts.</summary>
    public bool Sealed { get; init; }

    /// <summary>How often somebody is ordered to be erased after an exam, 0 to 1.</summary>
    public double Erasures { get; init; }

    /// <summary>How often the machine goes down while that is carried out, 0 to 1.</summary>
    public double ErasuresCutOff { get; init; }

    /// <summary>What the disk does with names fails, or the power goes while a start makes some.</summary>
    public TimeSpan? TroublesWithNames { get; init; }

    /// <summary>The operation of the disk (from 1) that fails; 0 for none.</summary>
    public int FailAt { get; init; }

    /// <summary>Whether all operations after that one fail as well, for two minutes.</summary>
    public bool FailsOn { get; init; }

    /// <summary>A segment of the journal is closed before it grows beyond this.</summary>
    public required int SegmentBytes { get; init; }

    /// <summary>Zeros written ahead of the records; 0 for none.</summary>
    public required int ZerosAhead { get; init; }

    /// <summary>The voyage of a seed.</summary>
    public static VoyagePlan Of(long seed)
    {
        var chance = new Chance(seed, "plan");
        var protection = new Chance(seed, "protection");
        var encrypted = protection.Happens(0.4);
        var pace = new Chance(seed, "pace");
        var moreWaits = pace.Happens(0.35) ? pace.NextInteger(3, 6) : 0;
        var (rarer, fewer) = moreWaits > 0 ? (2, 2) : (1, 1);
        var sealing = new Chance(seed, "sealing");
        var isSealed = encrypted || sealing.Happens(0.4);
        var erases = isSealed && sealing.Happens(0.45);
        TimeSpan? Sometimes(double probability, double minutes) =>
            chance.Happens(probability) ? TimeSpan.FromMinutes(rarer * minutes * chance.NextBetween(0.6, 2)) : null;
        return new VoyagePlan
        {
            Seed = seed,
            Instruments = chance.NextInteger(1, 4),
            ExamsEach = chance.NextInteger(8, 16) / fewer,
            MoreWaits = moreWaits,
            LineFaults = chance.Happens(0.6) ? chance.NextBetween(0.01, 0.06) : 0,
            Deaths = Sometimes(0.7, 25),
            PowerCuts = Sometimes(0.6, 40),
            DiskFailures = Sometimes(0.6, 15),
            FullDisks = Sometimes(0.4, 40),
            ClockSteps = Sometimes(0.5, 20),
            Restarts = Sometimes(0.4, 60),
            Rot = Sometimes(0.15, 60),
            SegmentBytes = chance.NextInteger(6, 64) * 4096,
            ZerosAhead = chance.Happens(0.7) ? chance.NextInteger(1, 16) * 1024 : 0,
            TroublesWithNames = pace.Happens(0.4) ? TimeSpan.FromMinutes(rarer * pace.NextBetween(25, 60)) : null,
            Encrypted = encrypted,
            Sealed = isSealed,
            Erasures = erases ? sealing.NextBetween(0.08, 0.3) : 0,
            ErasuresCutOff = erases ? sealing.NextBetween(0.2, 0.7) : 0,
            KeyChanges =
                encrypted && protection.Happens(0.5) ? TimeSpan.FromMinutes(protection.NextBetween(30, 120)) : null,
        };
    }

    /// <summary>The same without anything that goes wrong.</summary>
    public VoyagePlan Calm() =>
        this with
        {
            LineFaults = 0,
            Deaths = null,
            PowerCuts = null,
            DiskFailures = null,
            FullDisks = null,
            ClockSteps = null,
            Restarts = null,
            Rot = null,
            TroublesWithNames = null,
            Encrypted = false,
            KeyChanges = null,
            Sealed = false,
            Erasures = 0,
            ErasuresCutOff = 0,
        };

    public override string ToString() =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"seed {Seed}: {Instruments} instruments, {ExamsEach} exams each with {MoreWaits} more waits, line faults x{LineFaults:0.00}, "
                + $"deaths {Every(Deaths)}, power cuts {Every(PowerCuts)}, disk failures {Every(DiskFailures)}, full disks "
                + $"{Every(FullDisks)}, clock steps {Every(ClockSteps)}, restarts {Every(Restarts)}, rot {Every(Rot)}, "
                + $"segments of {SegmentBytes} bytes, {ZerosAhead} zeros ahead, "
                + $"{(Encrypted ? "encrypted" : "plain")}, {(Sealed ? "sealed" : "unsealed")}, erasures after {Erasures:0.00} of exams, "
                + $"{ErasuresCutOff:0.00} of them cut off, key changes {Every(KeyChanges)}, "
                + $"troubles with names {Every(TroublesWithNames)}"
        );

    private static string Every(TimeSpan? mean) =>
        mean is { } time ? string.Create(CultureInfo.InvariantCulture, $"every {time.TotalMinutes:0} min") : "none";
}
