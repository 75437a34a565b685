using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How people's entries about an exam are written: how great a defect is.</summary>
internal static partial class ExamFormats
{
    private static OpenFormat<FilterStepEntered> FilterStep =>
        new(
            EntryKind.FilterStepEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Choice(e.BeforeEye);
                w.Count(e.FilterSteps);
                w.Choice(e.Answer);
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
                    BeforeEye = p.Open.Choice<Eye>(),
                    FilterSteps = p.Open.Count(DensityBracket.StrongestStepAllowed),
                    Answer = p.Open.Choice<BracketAnswer>(),
                };
            }
        );

    private static OpenFormat<BellGradeEntered> BellGraded =>
        new(
            EntryKind.BellGradeEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Choice(e.Eye);
                w.Choice(e.Grade);
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
                    Eye = p.Open.Choice<Eye>(),
                    Grade = p.Open.Choice<BellGrade>(),
                };
            }
        );
}
