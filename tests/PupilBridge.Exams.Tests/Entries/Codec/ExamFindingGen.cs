using CsCheck;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of people about what they set and saw in an exam.</summary>
internal static class ExamFindingGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(EyeStatusEntered)] = About(
            AnyEye,
            Gen.Int[0, 63],
            (h, e, c) =>
                new EyeStatusEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Eye = e,
                    Conditions = (EyeConditions)c,
                }
        ),
        [typeof(RoomLightEntered)] = About(
            Gen.Enum<RoomLight>(),
            Gen.Bool,
            (h, l, _) =>
                new RoomLightEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Light = l,
                }
        ),
        [typeof(FixationEntered)] = About(
            Gen.Enum<Fixation>(),
            Gen.Bool,
            (h, f, _) =>
                new FixationEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Fixation = f,
                }
        ),
        [typeof(JudgementEntered)] = About(
            AnyJudgement,
            Gen.Select(Gen.Enum<ExamStep>().Nullable(), Gen.Long.Nullable()),
            (h, j, seen) =>
                new JudgementEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Judgement = j,
                    StepSeen = seen.Item1,
                    StimulusSeen = seen.Item2 is { } n ? new JournalSequence(n) : null,
                }
        ),
    };
}
