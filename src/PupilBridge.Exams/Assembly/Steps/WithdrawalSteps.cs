using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>A person's entry is taken back: it stays, marked, and no longer counts. What it had replaced holds again.</summary>
internal static class WithdrawalSteps
{
    public static void Withdraw(Workspace work, Exam exam, EntryWithdrawn withdrawn)
    {
        var target = withdrawn.Withdrawn;
        var by = withdrawn.Id;
        var changed = exam with
        {
            Judgements = Mark(
                exam.Judgements,
                j => j.Entry == target,
                j => j with { WithdrawnBy = j.WithdrawnBy ?? by }
            ),
            EyeStatuses = Mark(
                exam.EyeStatuses,
                s => s.Entry == target,
                s => s with { WithdrawnBy = s.WithdrawnBy ?? by }
            ),
            FilterSteps = Mark(
                exam.FilterSteps,
                s => s.Entry == target,
                s => s with { WithdrawnBy = s.WithdrawnBy ?? by }
            ),
            BellGrades = Mark(
                exam.BellGrades,
                g => g.Entry == target,
                g => g with { WithdrawnBy = g.WithdrawnBy ?? by }
            ),
            Notes = Mark(exam.Notes, n => n.Entry == target, n => n with { WithdrawnBy = n.WithdrawnBy ?? by }),
            NotExamined = Mark(
                exam.NotExamined,
                n => n.Entry == target,
                n => n with { WithdrawnBy = n.WithdrawnBy ?? by }
            ),
        };
        changed = WithoutCondition(work, changed, withdrawn);
        changed = WithoutCourse(work, changed, withdrawn);
        var when = work.Now(withdrawn.At);
        var kind = changed == exam ? IncidentKind.EntryNotApplied : IncidentKind.EntryWithdrawn;
        var detail = changed == exam ? $"taking back entry {target}: nothing to take back" : $"entry {target}";
        work.Put(changed.WithIncident(kind, when, detail));
    }

    /// <summary>What was measured under a light or a fixation that is taken back was measured under an unknown one.</summary>
    private static Exam WithoutCondition(Workspace work, Exam exam, EntryWithdrawn withdrawn)
    {
        var target = withdrawn.Withdrawn;
        var lane = work.Lane(exam.Serial);
        var when = work.Now(withdrawn.At);
        var light = exam.Light.LastOrDefault(l => l.Entry == target);
        var fixation = exam.Fixations.LastOrDefault(f => f.Entry == target);
        if (light is not null)
        {
            exam = exam with
            {
                Light = Mark(exam.Light, l => l.Entry == target, l => l with { Light = null }),
                Captures = Mark(
                    exam.Captures,
                    c => c.LightEntry == target,
                    c => c with { Light = null, DarkMilliseconds = null }
                ),
            };
            if (lane.Light?.Entry == target)
                work.Put(lane with { Light = new(when, null, null, ConditionSource.Lost, null), DarkSince = null });
        }

        if (fixation is not null)
        {
            exam = exam with
            {
                Fixations = Mark(exam.Fixations, f => f.Entry == target, f => f with { Fixation = null }),
                Captures = Mark(exam.Captures, c => c.FixationEntry == target, c => c with { Fixation = null }),
            };
            lane = work.Lane(exam.Serial);
            if (lane.Fixation?.Entry == target)
                work.Put(lane with { Fixation = new(when, null, ConditionSource.Lost, null) });
        }

        return exam;
    }

    /// <summary>
    /// Making ready, setting aside and attaching can be taken back, and an amendment in which nothing was entered yet; the
    /// exam's border stays where it is. A signature cannot, nor what it rests on.
    /// </summary>
    private static Exam WithoutCourse(Workspace work, Exam exam, EntryWithdrawn withdrawn)
    {
        var record = exam.Course.LastOrDefault(c => c.Entry == withdrawn.Withdrawn && CanBeTakenBack(exam, c));
        if (record is null)
            return exam;
        var takenBack = CourseSteps.Record(work, withdrawn, CourseKind.TakenBack, record.Patient, withdrawn.Reason);
        exam = exam with { Course = exam.Course.Add(takenBack) };
        return record.Kind switch
        {
            CourseKind.MadeReady when exam.Status == ExamStatus.ReadyForReview => exam with
            {
                Status = ExamStatus.Open,
            },
            CourseKind.SetAside when exam.Status == ExamStatus.SetAside => exam with
            {
                Status = SigningSteps.StatusOf(exam.SignedVersions.Count),
            },
            CourseKind.AmendmentBegun => exam with { Amendment = null },
            CourseKind.Attached when exam.Patient == record.Patient => exam with { Patient = null },
            _ => exam,
        };
    }

    private static bool CanBeTakenBack(Exam exam, CourseRecord record) =>
        record.Kind switch
        {
            CourseKind.MadeReady => exam.SignedVersions.Count == 0,
            CourseKind.SetAside or CourseKind.Attached => true,
            CourseKind.AmendmentBegun => SigningSteps.IsUntouchedAmendment(exam, record.Entry),
            _ => false,
        };

    private static ValueList<T> Mark<T>(ValueList<T> items, Func<T, bool> isMeant, Func<T, T> mark) =>
        [.. items.Items.Select(item => isMeant(item) ? mark(item) : item)];
}
