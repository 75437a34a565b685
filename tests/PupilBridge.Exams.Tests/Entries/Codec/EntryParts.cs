using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random parts of entries.</summary>
internal static class EntryParts
{
    public static readonly Gen<string> Text = Gen.Char[' ', '\u04FF'].Array[0, 30].Select(c => new string(c));
    public static readonly Gen<string> Short = Gen.Char['A', 'z'].Array[1, 16].Select(c => new string(c));
    public static readonly Gen<UtcTime> Time = Gen.Long.Select(ms => new UtcTime(ms));
    public static readonly Gen<SerialNumber> Serial = Gen.Char['0', '9']
        .Array[1, 16]
        .Select(c => new SerialNumber(new(c)));
    public static readonly Gen<BootNumber> Boot = Gen.ULong.Select(b => new BootNumber(b));
    public static readonly Gen<Eye> AnyEye = Gen.Bool.Select(left => left ? Eye.Left : Eye.Right);
    public static readonly Gen<EntryId> Id = Gen.Select(Gen.ULong, Gen.ULong).Select((a, b) => new EntryId(new(a, b)));
    public static readonly Gen<PatientId> Patient = Short.Select(s => new PatientId(s));
    public static readonly Gen<ExamId> Exam = Gen.Long[1, 1L << 53].Select(n => new ExamId(n));
    public static readonly Gen<ValueList<ExamStep>> Steps = Gen.Enum<ExamStep>()
        .Array[0, 8]
        .Select(steps => new ValueList<ExamStep>([.. steps]));

    public static readonly Gen<Grade> AnyGrade = Gen.Int[-1, 8]
        .Select(half => half < 0 ? Grade.CouldNotSee : Grade.FromHalfSteps(half));

    public static readonly Gen<Judgement> AnyJudgement = Gen.OneOf(
        Gen.Select(AnyEye, Gen.Enum<PupilShape>()).Select((e, s) => (Judgement)new ShapeJudgement(e, s)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new DirectResponse(e, g)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new ConsensualResponse(e, e.Fellow(), g)),
        Gen.Select(
                Gen.Bool.Select(longDwell => longDwell ? Block.SwingLong : Block.SwingShort),
                Gen.Enum<SwingFinding>(),
                Gen.Enum<PupilsObserved>()
            )
            .Select((d, f, o) => (Judgement)new SwingOutcome(d, f, o)),
        Gen.Select(AnyEye, AnyGrade).Select((e, g) => (Judgement)new NearResponse(e, g)),
        AnyEye.Select(e => (Judgement)new SlowToDilate(e))
    );

    public static readonly Gen<(EntryId Id, PersonId Who, UtcTime At, string Version, ExamId Exam)> Head = Gen.Select(
        Id,
        Short.Select(s => new PersonId(s)),
        Time,
        Text,
        Exam
    );

    public static Gen<JournalEntry> About<TA, TB>(
        Gen<TA> first,
        Gen<TB> second,
        Func<(EntryId Id, PersonId Who, UtcTime At, string Version, ExamId Exam), TA, TB, JournalEntry> make
    ) => Gen.Select(Head, first, second).Select((h, a, b) => make(h, a, b));
}
