using CsCheck;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of the service bench.</summary>
internal static class BenchGen
{
    private static readonly Gen<DateOnly> Day = Gen.Int[0, DateOnly.MaxValue.DayNumber].Select(DateOnly.FromDayNumber);

    private static readonly Gen<double> Real = Gen.OneOf(Gen.Double[-100, 100], Gen.Const(double.PositiveInfinity));

    private static readonly Gen<DiscSet> Set = Gen.Select(
        Gen.Select(Text, Text, Text),
        Gen.Select(Day, Day.Nullable(), Gen.Double[0, 1]),
        Gen.Select(Short, Gen.Double[0, 20], Gen.Double[0, 1]).Array[0, 6],
        (names, days, discs) =>
            new DiscSet
            {
                Name = names.Item1,
                CertificateNumber = names.Item2,
                CertifiedBy = names.Item3,
                Certified = days.Item1,
                Expires = days.Item2,
                CommonUncertaintyMillimetres = days.Item3,
                Discs = [.. discs.Select(disc => new Disc(disc.Item1, disc.Item2, disc.Item3))],
            }
    );

    private static readonly Gen<LineVariance> Variance = Gen.Select(Real, Real, Real)
        .Select((a, b, c) => new LineVariance(a, b, c));

    private static readonly Gen<CalibratedScale> Scale = Gen.Select(
        Gen.Select(Real, Real, Real, Real),
        Gen.Select(Variance, Variance, Real, Gen.Bool),
        Gen.Select(Real, Real, Real, Real, Real),
        Gen.Enum<ConformityStatement>(),
        (line, uncertain, rest, statement) =>
            new CalibratedScale(
                new CorrectionLine(line.Item1, line.Item2, line.Item3, uncertain.Item1, line.Item4)
                {
                    FromDiscs = uncertain.Item2,
                    Straightness = new(uncertain.Item3, uncertain.Item4),
                    Common = new(rest.Item1, rest.Item2),
                },
                rest.Item3,
                statement,
                rest.Item4,
                rest.Item5
            )
    );

    private static readonly Gen<BenchStep> Step = Gen.Select(
        AnyEye,
        Short.Null(),
        Gen.Enum<RoomLight>().Nullable(),
        (eye, disc, light) => new BenchStep(eye, disc, light)
    );

    private static readonly Gen<DecisionRule> Rule = Gen.Select(
        Gen.Enum<DecisionRuleKind>(),
        Real,
        Real,
        (kind, limit, factor) => new DecisionRule(kind, limit, factor)
    );

    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(DiscSetEntered)] = About(
            Set,
            Gen.Bool,
            (h, set, _) =>
                new DiscSetEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Set = set,
                }
        ),
        [typeof(BenchRunBegun)] = About(
            Gen.Select(Serial, Gen.Enum<BenchRunKind>(), Set.Null(), Step.Array[0, 9], Gen.ULong),
            Gen.Select(Rule.Null(), Real, Real.Nullable(), Text),
            (h, what, how) =>
                new BenchRunBegun
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Serial = what.Item1,
                    Kind = what.Item2,
                    DiscSet = what.Item3,
                    Plan = [.. what.Item4],
                    Seed = what.Item5,
                    Rule = how.Item1,
                    StraightnessMillimetres = how.Item2,
                    TemperatureCelsius = how.Item3,
                    Conditions = how.Item4,
                }
        ),
        [typeof(BenchReadingMarked)] = About(
            Gen.Long,
            Gen.Select(Gen.Bool, Text),
            (h, reading, how) =>
                new BenchReadingMarked
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Reading = new(reading),
                    IsSetAside = how.Item1,
                    Reason = how.Item2,
                }
        ),
        [typeof(BenchRunEnded)] = About(
            Gen.Bool,
            Text,
            (h, finished, reason) =>
                new BenchRunEnded
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    IsFinished = finished,
                    Reason = reason,
                }
        ),
        [typeof(CalibrationIssued)] = About(
            Gen.Select(Gen.Long, Time, Time.Nullable(), Text),
            Gen.Select(Scale, Scale),
            (h, what, scales) =>
                new CalibrationIssued
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Number = what.Item1,
                    Effective = what.Item2,
                    Expires = what.Item3,
                    Certificate = what.Item4,
                    Scales = new() { Right = scales.Item1, Left = scales.Item2 },
                }
        ),
        [typeof(LampBalanceEntered)] = About(
            Gen.Select(Serial, Gen.Long, Gen.Enum<LampReadingSource>(), Text),
            Gen.Select(Gen.Long.Array[0, 5], Gen.Long.Array[0, 5]),
            (h, what, lux) =>
                new LampBalanceEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Serial = what.Item1,
                    StepMillilux = what.Item2,
                    Source = what.Item3,
                    Meter = what.Item4,
                    Millilux = new() { Right = [.. lux.Item1], Left = [.. lux.Item2] },
                }
        ),
        [typeof(RepeatabilityAdopted)] = About(
            Real,
            Gen.Int,
            (h, within, degrees) =>
                new RepeatabilityAdopted
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    WithinMillimetres = within,
                    DegreesOfFreedom = degrees,
                }
        ),
    };
}
