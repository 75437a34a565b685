using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How people's entries about an exam are written: conditions and judgements.</summary>
internal static partial class ExamFormats
{
    private const int AllConditions = (int)(
        EyeConditions.Prosthesis
        | EyeConditions.Patch
        | EyeConditions.Drops
        | EyeConditions.SurgeryOrInjury
        | EyeConditions.OpaqueCornea
        | EyeConditions.LidDown
    );

    private static OpenFormat<EyeStatusEntered> EyeStatus =>
        new(
            EntryKind.EyeStatusEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Choice(e.Eye);
                w.Count((int)e.Conditions);
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
                    Conditions = (EyeConditions)p.Open.Count(AllConditions),
                };
            }
        );

    private static OpenFormat<RoomLightEntered> RoomLight =>
        new(
            EntryKind.RoomLightEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Choice(e.Light);
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
                    Light = p.Open.Choice<RoomLight>(),
                };
            }
        );

    private static OpenFormat<FixationEntered> Fixation =>
        new(
            EntryKind.FixationEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Choice(e.Fixation);
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
                    Fixation = p.Open.Choice<Fixation>(),
                };
            }
        );

    private static OpenFormat<JudgementEntered> Judged =>
        new(
            EntryKind.JudgementEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                JudgementFields.Write(w, e.Judgement);
                w.Optional(e.StepSeen, static (w, step) => w.Choice(step));
                w.Optional(e.StimulusSeen, static (w, stimulus) => w.Signed(stimulus.Value));
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
                    Judgement = JudgementFields.Read(ref p.Open),
                    StepSeen = p.Open.Optional(static (ref r) => r.Choice<ExamStep>()),
                    StimulusSeen = p.Open.Optional(static (ref r) => new JournalSequence(r.Signed())),
                };
            }
        );
}
