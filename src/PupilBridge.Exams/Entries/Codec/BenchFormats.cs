using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How the entries of the service bench are written. None of them is about a patient, so that none has a protected part.</summary>
internal static class BenchFormats
{
    public static EntryFormat[] All => [Issued, Lamps, Discs, Begun, Marked, Ended, Adopted];

    private static OpenFormat<CalibrationIssued> Issued =>
        new(
            EntryKind.CalibrationIssued,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.Number);
                w.Time(e.Effective);
                w.Optional(e.Expires, static (w, time) => w.Time(time));
                w.Scale(e.Scales.Right);
                w.Scale(e.Scales.Left);
                w.Text(e.Certificate);
            },
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    Number = p.Open.Signed(),
                    Effective = p.Open.Time(),
                    Expires = p.Open.Optional(static (ref r) => r.Time()),
                    Scales = new() { Right = p.Open.Scale(), Left = p.Open.Scale() },
                    Certificate = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<LampBalanceEntered> Lamps =>
        new(
            EntryKind.LampBalanceEntered,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Serial(e.Serial);
                w.List(e.Millilux.Right, static (w, one) => w.Signed(one));
                w.List(e.Millilux.Left, static (w, one) => w.Signed(one));
                w.Signed(e.StepMillilux);
                w.Choice(e.Source);
                w.Text(e.Meter);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Serial = p.Open.Serial(),
                    Millilux = new()
                    {
                        Right = p.Open.List(static (ref r) => r.Signed()),
                        Left = p.Open.List(static (ref r) => r.Signed()),
                    },
                    StepMillilux = p.Open.Signed(),
                    Source = p.Open.Choice<LampReadingSource>(),
                    Meter = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<DiscSetEntered> Discs =>
        new(
            EntryKind.DiscSetEntered,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Discs(e.Set);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Set = p.Open.Discs(),
                };
            }
        );

    private static OpenFormat<BenchRunBegun> Begun =>
        new(
            EntryKind.BenchRunBegun,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Serial(e.Serial);
                w.Choice(e.Kind);
                w.Flag(e.DiscSet is not null);
                if (e.DiscSet is { } set)
                    w.Discs(set);
                w.List(e.Plan, static (w, step) => w.Step(step));
                w.Fixed64(e.Seed);
                w.Flag(e.Rule is not null);
                if (e.Rule is { } rule)
                    w.Rule(rule);
                w.Real(e.StraightnessMillimetres);
                w.Optional(e.TemperatureCelsius, static (w, celsius) => w.Real(celsius));
                w.Text(e.Conditions);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Serial = p.Open.Serial(),
                    Kind = p.Open.Choice<BenchRunKind>(),
                    DiscSet = p.Open.Flag() ? p.Open.Discs() : null,
                    Plan = p.Open.List(static (ref r) => r.Step()),
                    Seed = p.Open.Fixed64(),
                    Rule = p.Open.Flag() ? p.Open.Rule() : null,
                    StraightnessMillimetres = p.Open.Real(),
                    TemperatureCelsius = p.Open.Optional(static (ref r) => r.Real()),
                    Conditions = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<BenchReadingMarked> Marked =>
        new(
            EntryKind.BenchReadingMarked,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.Reading.Value);
                w.Flag(e.IsSetAside);
                w.Text(e.Reason);
            },
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    Reading = new(p.Open.Signed()),
                    IsSetAside = p.Open.Flag(),
                    Reason = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<BenchRunEnded> Ended =>
        new(
            EntryKind.BenchRunEnded,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Flag(e.IsFinished);
                w.Text(e.Reason);
            },
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    IsFinished = p.Open.Flag(),
                    Reason = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<RepeatabilityAdopted> Adopted =>
        new(
            EntryKind.RepeatabilityAdopted,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Real(e.WithinMillimetres);
                w.Signed(e.DegreesOfFreedom);
            },
            static (ref p) =>
            {
                var h = p.Open.Exam();
                return new()
                {
                    Id = h.Person.Id,
                    Who = h.Person.Who,
                    At = h.Person.At,
                    ProgramVersion = h.Person.ProgramVersion,
                    Exam = h.Exam,
                    WithinMillimetres = p.Open.Real(),
                    DegreesOfFreedom = p.Open.Int32(),
                };
            }
        );
}
