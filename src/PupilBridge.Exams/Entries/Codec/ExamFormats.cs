using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How people's entries about an exam are written: its course.</summary>
internal static partial class ExamFormats
{
    public static EntryFormat[] All =>
        [
            Attached,
            Moved,
            Split,
            EyeStatus,
            RoomLight,
            Fixation,
            Judged,
            Withdrawn,
            Note,
            NotExamined,
            MadeReady,
            SetAside,
            FilterStep,
            BellGraded,
        ];

    private static ProtectedFormat<ExamAttached> Attached =>
        new(
            EntryKind.ExamAttached,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Text(e.Patient.Value);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
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
                    Patient = new(p.Open.Text()),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<ExamMoved> Moved =>
        new(
            EntryKind.ExamMoved,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Text(e.Patient.Value);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
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
                    Patient = new(p.Open.Text()),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<ExamSplit> Split =>
        new(
            EntryKind.ExamSplit,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Signed(e.From.Value);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
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
                    From = new(p.Open.Signed()),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<EntryWithdrawn> Withdrawn =>
        new(
            EntryKind.EntryWithdrawn,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.Fixed128(e.Withdrawn.Value);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
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
                    Withdrawn = new(p.Open.Fixed128()),
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static ProtectedFormat<NoteEntered> Note =>
        new(
            EntryKind.NoteEntered,
            1,
            static (w, e) =>
            {
                w.Exam(e);
            },
            static e => e.Text is null,
            static (w, e) => w.Text(e.Text!),
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
                    Text = p.Erased ? null : p.Protected.Text(),
                };
            }
        );

    private static OpenFormat<NotExaminedAccepted> NotExamined =>
        new(
            EntryKind.NotExaminedAccepted,
            1,
            static (w, e) =>
            {
                w.Exam(e);
                w.List(e.Steps, static (w, step) => w.Choice(step));
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
                    Steps = p.Open.List(static (ref r) => r.Choice<ExamStep>()),
                };
            }
        );

    private static OpenFormat<ExamMadeReady> MadeReady =>
        new(
            EntryKind.ExamMadeReady,
            1,
            static (w, e) =>
            {
                w.Exam(e);
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
                };
            }
        );

    private static ProtectedFormat<ExamSetAside> SetAside =>
        new(
            EntryKind.ExamSetAside,
            1,
            static (w, e) =>
            {
                w.Exam(e);
            },
            static e => e.Reason is null,
            static (w, e) => w.Text(e.Reason!),
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
                    Reason = p.Erased ? null : p.Protected.Text(),
                };
            }
        );
}
