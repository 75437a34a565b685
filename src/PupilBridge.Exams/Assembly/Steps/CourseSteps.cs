using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What people do to an exam as a whole: open, attach, move, split, make ready, set aside, sign, amend.</summary>
internal static class CourseSteps
{
    public static void Opened(Workspace work, ExamOpened opened)
    {
        var lane = work.Lane(opened.Serial);
        if (lane.OpenExam is { } open && work.Find(open) is { } before)
        {
            if (before.EntryIds.Contains(opened.Id))
            {
                work.Ignore($"Exam {before.Id} was opened by this entry; it was sent twice.");
                return;
            }

            Borders.Close(work, open, work.Now(opened.At), ClosingReason.AnotherOpened);
            lane = work.Lane(opened.Serial);
        }

        var when = work.Now(opened.At);
        var exam = Borders.NewExam(work, lane, new(when, opened.Who, null)) with
        {
            Patient = opened.Patient,
            EntryIds = [opened.Id],
            Course =
            [
                new(CourseKind.Opened, opened.Id, work.Sequence, opened.Who, opened.At, opened.Patient, null, null),
            ],
        };
        work.PutNew(exam.WithEntry(work.Sequence));
        // A train of stimuli that runs on from before is a remnant, not this patient's.
        var isFresh = lane.Dial is null or { Mode: InstrumentMode.Idle or InstrumentMode.Measure };
        work.Put(lane with { OpenExam = exam.Id, OpenExamHasEvents = false, IsFresh = isFresh, Pending = null });
    }

    public static void Change(Workspace work, Exam exam, ExamEntry entry)
    {
        switch (entry)
        {
            case ExamAttached attached:
                work.Put(Attach(exam, attached, work));
                break;
            case ExamMoved moved:
                var move = Record(work, moved, CourseKind.Moved, moved.Patient, moved.Reason);
                work.Put(exam with { Patient = moved.Patient, Course = exam.Course.Add(move) });
                break;
            case ExamSplit split:
                SplitSteps.Split(work, exam, split);
                break;
            case ExamMadeReady ready:
                var made = Record(work, ready, CourseKind.MadeReady, null, null);
                End(work, exam, ready, ExamStatus.ReadyForReview, ClosingReason.MadeReady, made);
                break;
            case ExamSetAside aside:
                var set = Record(work, aside, CourseKind.SetAside, null, aside.Reason);
                End(work, exam, aside, ExamStatus.SetAside, ClosingReason.SetAside, set);
                break;
            case ExamSigned signed:
                SigningSteps.Sign(work, exam, signed);
                break;
            case AmendmentBegun begun:
                SigningSteps.BeginAmendment(work, exam, begun);
                break;
            default:
                work.Ignore($"Entries of the kind {entry.GetType().Name} are not known here.");
                break;
        }
    }

    public static CourseRecord Record(
        Workspace work,
        ExamEntry entry,
        CourseKind kind,
        PatientId? patient,
        string? reason,
        ExamId? other = null
    ) => new(kind, entry.Id, work.Sequence, entry.Who, entry.At, patient, other, reason);

    private static Exam Attach(Exam exam, ExamAttached attached, Workspace work)
    {
        if (exam.Patient is { } other && other != attached.Patient)
        {
            return exam.WithIncident(
                IncidentKind.EntryNotApplied,
                work.Now(attached.At),
                "attaching to a patient: it has another one already, move it instead"
            );
        }

        var record = Record(work, attached, CourseKind.Attached, attached.Patient, attached.Reason);
        return exam with { Patient = attached.Patient, Course = exam.Course.Add(record) };
    }

    private static void End(
        Workspace work,
        Exam exam,
        ExamEntry entry,
        ExamStatus status,
        ClosingReason reason,
        CourseRecord record
    )
    {
        if (WhyNotEnded(exam, status) is { } obstacle)
        {
            work.Put(exam.WithIncident(IncidentKind.EntryNotApplied, work.Now(entry.At), obstacle));
            return;
        }

        work.Put(exam with { Status = status, Course = exam.Course.Add(record) });
        if (exam.TakesEvents)
            Borders.Close(work, exam.Id, work.Now(entry.At), reason);
    }

    private static string? WhyNotEnded(Exam exam, ExamStatus status)
    {
        if (exam.Status == ExamStatus.SetAside)
            return "the exam was set aside before";
        return status == ExamStatus.ReadyForReview && exam.SignedVersions.Count > 0
            ? "it is being amended; sign the amended record instead"
            : null;
    }
}
