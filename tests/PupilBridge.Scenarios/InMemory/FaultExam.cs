using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Scenarios.InMemory;

/// <summary>What one exam under faults came to.</summary>
/// <param name="Seed">The seed that replays it.</param>
/// <param name="VirtualTime">How long it lasted.</param>
/// <param name="Openings">How often the line was opened.</param>
/// <param name="Fired">How often each fault really happened.</param>
/// <param name="Audit">The journal against the oracle.</param>
/// <param name="CameToRest">Whether all was acknowledged within the time given after the faults ended.</param>
/// <param name="Journal">All entries, in order.</param>
public sealed record FaultExamResult(
    long Seed,
    TimeSpan VirtualTime,
    int Openings,
    IReadOnlyDictionary<string, long> Fired,
    AuditResult Audit,
    bool CameToRest,
    IReadOnlyList<SequencedEntry> Journal
);

/// <summary>One whole exam in virtual time between a simulated instrument and the product's own session and journal.</summary>
public static class FaultExam
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(12);
    private static readonly TimeSpan TimeToSettle = TimeSpan.FromMinutes(2);

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty data folder.</param>
    /// <param name="seed">Chooses person, examiner, model and chance.</param>
    /// <param name="faults">What goes wrong.</param>
    public static FaultExamResult Run(string folder, long seed, FaultSet faults)
    {
        var serial = new SerialNumber("QA-0501");
        var model = seed % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB;
        var exam = new InMemoryExam(model, serial, NamedScenarios.FromSeed(seed), faults);
        TimeSpan now;
        int openings;
        bool rest;
        using (var bridge = new SteppedBridge(folder))
        {
            now = Examine(exam, bridge);
            faults.IsActive = false;
            (now, rest) = Settle(exam, bridge, now);
            openings = bridge.Openings;
        }

        var journal = JournalText.ReadAll(folder);
        var audit = JournalAudit.Compare(exam.Instrument.Truth, serial, [.. journal.Select(e => e.Entry)]);
        var report = JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(folder));
        if (!report.IsSound)
            audit = audit with { Problems = [.. audit.Problems, report.Summary] };
        return new FaultExamResult(seed, now, openings, faults.Fired, audit, rest, journal);
    }

    private static TimeSpan Examine(InMemoryExam exam, SteppedBridge bridge)
    {
        var now = TimeSpan.Zero;
        byte[] fromHost = [];
        while (!exam.Exam.IsFinished && now < LongestExam)
        {
            now += Step;
            if (exam.Exam.AboutToSay is not null)
                exam.Exam.Said();
            fromHost = Exchange(exam, bridge, fromHost, now);
        }

        return now;
    }

    private static (TimeSpan Now, bool AtRest) Settle(InMemoryExam exam, SteppedBridge bridge, TimeSpan now)
    {
        var until = now + TimeToSettle;
        byte[] fromHost = [];
        while (now < until)
        {
            now += Step;
            if (exam.Exam.AboutToSay is not null)
                exam.Exam.Said();
            fromHost = Exchange(exam, bridge, fromHost, now);
            if (exam.Instrument.IsAllAcknowledged && bridge.IsConnected && exam.Instrument.Power == PowerState.On)
                return (now, true);
        }

        return (now, exam.Instrument.IsAllAcknowledged);
    }

    private static byte[] Exchange(InMemoryExam exam, SteppedBridge bridge, byte[] fromHost, TimeSpan now)
    {
        var pieces = exam.ExchangePieces(fromHost, now);
        return bridge.Step(exam.Line.IsPlugged, pieces, now);
    }
}
