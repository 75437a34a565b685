using System.Globalization;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator.Faults;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Runs;

/// <summary>What is printed of many voyages, and whether they prove anything.</summary>
internal static class FleetReport
{
    /// <summary>Every kind of fault that a run of some length must have met.</summary>
    public static IReadOnlyList<string> AllKinds { get; } =
    [
        .. Enum.GetValues<Trouble>().Select(RunCounts.NameOf),
        .. Enum.GetValues<DiskFault>().Select(RunCounts.NameOf),
        .. FaultCatalogue.Storm.Select(RunCounts.NameOfLine),
    ];

    /// <summary>The kinds that never fired: a fault that never hit proves nothing.</summary>
    public static IReadOnlyList<string> NeverFired(RunCounts counts) =>
        [.. AllKinds.Where(kind => counts.FiredByKind.GetValueOrDefault(kind) == 0), .. counts.Erasures.Never];

    /// <summary>What must not be: voyages that failed, kinds of faults that never fired, and fewer exam-hours than were asked for.</summary>
    public static int Findings(Fleet fleet, double hours) =>
        fleet.Failures.Count + NeverFired(fleet.Counts).Count + (fleet.Counts.ExamTime.TotalHours >= hours ? 0 : 1);

    public static bool IsGood(Fleet fleet, double hours) => Findings(fleet, hours) == 0;

    /// <summary>The last line of a run, which tests/run.sh counts.</summary>
    public static void PrintClosing(Fleet fleet, double hours) =>
        Say(
            string.Create(
                CultureInfo.InvariantCulture,
                $"voyages: {fleet.Voyages - fleet.Failures.Count} passed, {Findings(fleet, hours)} findings"
            )
        );

    public static void Print(Fleet fleet, TimeSpan took)
    {
        var counts = fleet.Counts;
        var processor = Environment.CpuUsage.TotalTime.TotalSeconds;
        foreach (var (name, count) in counts.FiredByKind)
            Say($"  {name} {count:N0}");
        Say(
            $"{fleet.Voyages:N0} voyages, {counts.Exams:N0} exams, {counts.ExamTime.TotalHours:N0} exam-hours ({counts.VirtualTime.TotalHours:N0} hours of "
                + $"virtual time, {counts.Steps:N0} steps) in {took.TotalSeconds:0.0} s, {processor:0.0} s of processor time: "
                + $"{processor / counts.ExamTime.TotalHours:0.000} s for each exam-hour"
        );
        Say(
            $"{fleet.Events.Happened:N0} events happened, {fleet.Events.Recorded:N0} recorded, {fleet.Events.InGap:N0} in gaps, "
                + $"{fleet.Events.NeverMet:N0} in boots never met; lost {fleet.Events.Lost}, doubled {fleet.Events.Doubled}, false {fleet.Events.False}"
        );
        Say(
            $"{counts.Records:N0} records ({counts.EncryptedRecords:N0} encrypted, {counts.SealedPieces:N0} sealed pieces), {counts.EntriesOfPeople:N0} entries of people ({counts.SentAgain:N0} sent again), {counts.Signed:N0} signed "
                + $"versions, {counts.Starts:N0} starts ({counts.RefusedStarts:N0} refused), {counts.ExamLogRebuilds:N0} rebuilds of the exam log"
        );
        Say(
            $"{counts.Erasures.Ordered:N0} erasures ordered: {counts.Erasures.Done:N0} answered as done, {counts.Erasures.Refused:N0} refused; "
                + $"{counts.Erasures.CutOff:N0} times cut off before the answer"
        );
        Say(
            $"at most {counts.MostWaiting} entries waiting for the disk ({counts.MostOfOnePort} of one port), {counts.MostUnwritten} documents unwritten, "
                + $"{counts.MostKept} events kept by an instrument, {counts.MostOutgoing} bytes waiting to be sent"
        );
        foreach (var kind in NeverFired(counts))
            Say($"NEVER FIRED: {kind}");
        foreach (var (seed, problems) in fleet.Failures.Take(20))
        {
            Say($"FAILED: seed {seed}, {problems.Count} problems; {VoyageRun.Replay(seed)}");
            foreach (var problem in problems.Take(5))
                Say($"    {problem}");
        }

        if (fleet.Failures.Count > 0)
            Say($"{fleet.Failures.Count} of {fleet.Voyages} voyages failed");
    }

    private static void Say(string text) => System.Console.WriteLine(text);
}
