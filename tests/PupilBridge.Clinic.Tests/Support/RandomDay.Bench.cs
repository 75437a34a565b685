using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.Support;

/// <content>What a technician does on such a day: runs, readings set aside, certificates, lamps.</content>
internal sealed partial class RandomDay
{
    private static readonly DiscSet Discs = new()
    {
        Name = "quay set",
        CertificateNumber = "QS-17",
        CertifiedBy = "gauge room",
        Certified = new(2026, 1, 5),
        Expires = null,
        CommonUncertaintyMillimetres = 0.002,
        Discs = [new("d2", 2, 0.003), new("d5", 5, 0.003), new("d8", 8, 0.003)],
    };

    private IEnumerable<JournalEntry> OnTheBench(ScriptedInstrument at) =>
        bench!.Next(7) switch
        {
            0 =>
            [
                new DiscSetEntered
                {
                    Id = NewId(),
                    Who = new("TK"),
                    At = UtcTime.From(at.Now),
                    ProgramVersion = "0.1.0",
                    Set = Discs,
                },
            ],
            1 =>
            [
                new LampBalanceEntered
                {
                    Id = NewId(),
                    Who = new("TK"),
                    At = UtcTime.From(at.Now),
                    ProgramVersion = "0.1.0",
                    Serial = at.Serial,
                    Millilux = new() { Right = [100_000, 101_000], Left = [99_000, bench.Next(98_000, 99_000)] },
                    StepMillilux = 100,
                    Source = LampReadingSource.Typed,
                    Meter = "",
                },
            ],
            2 or 3 => [Begun(at), .. WholeRun(at)],
            _ => [AboutARun(at)],
        };

    private BenchRunBegun Begun(ScriptedInstrument at) =>
        new()
        {
            Id = NewId(),
            Who = new("TK"),
            At = UtcTime.From(at.Now),
            ProgramVersion = "0.1.0",
            Serial = at.Serial,
            Kind = bench!.Next(3) == 0 ? BenchRunKind.StimulusTiming : BenchRunKind.Calibration,
            DiscSet = Discs,
            Plan = BenchPlans.Calibration(Discs, 2, (ulong)bench.Next()),
            Seed = 1,
            Rule = DecisionRule.Default,
            StraightnessMillimetres = 0,
            TemperatureCelsius = null,
            Conditions = "",
        };

    private IEnumerable<JournalEntry> WholeRun(ScriptedInstrument at) =>
        bench!.Next(2) == 0
            ? []
            : Enumerable.Range(0, 12).SelectMany(_ => at.Mark(AnyEye(), 2_000 + bench.Next(6_000)));

    private ExamEntry AboutARun(ScriptedInstrument at)
    {
        var (id, when) = (NewId(), UtcTime.From(at.Now));
        // Now and then it names what is an exam of a patient.
        var run = new ExamId(
            runs.Count == 0 || bench!.Next(6) == 0 ? openings.LastOrDefault(1) : runs[bench.Next(runs.Count)]
        );
        var scale = new CalibratedScale(new(5, 0.03, 0, new(1e-6, 0, 0), 3), 0.01, ConformityStatement.Pass, 2, 8);
        return bench!.Next(4) switch
        {
            0 => new BenchReadingMarked
            {
                Id = id,
                Who = new("TK"),
                At = when,
                ProgramVersion = "0.1.0",
                Exam = run,
                Reading = new(run.Value + bench.Next(1, 30)),
                IsSetAside = bench.Next(3) > 0,
                Reason = "dust",
            },
            1 => new CalibrationIssued
            {
                Id = id,
                Who = new("TK"),
                At = when,
                ProgramVersion = "0.1.0",
                Exam = run,
                Number = bench.Next(1, 4),
                Effective = when,
                Expires = null,
                Scales = new() { Right = scale, Left = scale },
                Certificate = "certificate",
            },
            _ => new BenchRunEnded
            {
                Id = id,
                Who = new("TK"),
                At = when,
                ProgramVersion = "0.1.0",
                Exam = run,
                IsFinished = true,
                Reason = "",
            },
        };
    }
}
