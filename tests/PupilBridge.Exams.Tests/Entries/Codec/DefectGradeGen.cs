using CsCheck;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Entries;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of people about how great a defect is.</summary>
internal static class DefectGradeGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(FilterStepEntered)] = About(
            Gen.Select(AnyEye, Gen.Int[1, DensityBracket.StrongestStepAllowed]),
            Gen.Enum<BracketAnswer>(),
            (h, held, answer) =>
                new FilterStepEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    BeforeEye = held.Item1,
                    FilterSteps = held.Item2,
                    Answer = answer,
                }
        ),
        [typeof(BellGradeEntered)] = About(
            AnyEye,
            Gen.Enum<BellGrade>(),
            (h, eye, grade) =>
                new BellGradeEntered
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.Version,
                    Exam = h.Exam,
                    Eye = eye,
                    Grade = grade,
                }
        ),
    };
}
