using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What people's entries do.</summary>
internal static class PersonSteps
{
    public static void Apply(Workspace work, PersonEntry entry)
    {
        switch (entry)
        {
            case PatientEntered patient:
                work.Add(new PatientChanged(work.Sequence, patient));
                break;
            case PatientsMerged merged:
                MergingSteps.Merge(work, merged);
                break;
            case PatientsParted parted:
                MergingSteps.Part(work, parted);
                break;
            case PatientErased erased:
                ErasureSteps.Erase(work, erased);
                break;
            case ExamOpened opened:
                CourseSteps.Opened(work, opened);
                break;
            case BenchRunBegun begun:
                BenchSteps.Begin(work, begun);
                break;
            case DiscSetEntered discs:
                BenchSteps.Discs(work, discs);
                break;
            case LampBalanceEntered lamps:
                KeepingSteps.Lamps(work, lamps);
                break;
            case ExamEntry about:
                About(work, about);
                break;
            default:
                work.Add(new EntryNoted(work.Sequence, entry));
                break;
        }
    }

    private static void About(Workspace work, ExamEntry entry)
    {
        if (work.Find(entry.Exam) is not { } exam)
        {
            work.Ignore($"There is no exam {entry.Exam}.");
            return;
        }

        exam = work.WithTexts(exam);
        if (SendingSteps.Took(work, exam, entry))
            return;

        if (exam.EntryIds.Contains(entry.Id))
        {
            work.Ignore($"Exam {exam.Id} has this entry already; it was sent twice.");
            return;
        }

        if (BenchSteps.Strayed(work, exam, entry))
            return;

        exam = (exam with { EntryIds = exam.EntryIds.Add(entry.Id) }).WithEntry(work.Sequence);
        if (exam.TakesEvents)
            exam = exam.WithActivity(work.Now(entry.At));
        work.Put(exam);
        if (ErasureSteps.Refused(work, exam, entry))
            return;
        if (exam.Bench is { } run)
            BenchSteps.Change(work, exam, run, entry);
        else if (!SigningSteps.Took(work, exam, entry))
            Change(work, exam, entry);
    }

    private static void Change(Workspace work, Exam exam, ExamEntry entry)
    {
        switch (entry)
        {
            case JudgementEntered judgement:
                work.Put(JudgementGates.Enter(exam, judgement, work.Sequence));
                break;
            case EyeStatusEntered status:
                var eye = new EyeStatusRecord(
                    status.Id,
                    work.Sequence,
                    status.Who,
                    status.At,
                    status.Eye,
                    status.Conditions,
                    null
                );
                work.Put(exam with { EyeStatuses = exam.EyeStatuses.Add(eye) });
                break;
            case NoteEntered note:
                var remark = new NoteRecord(note.Id, work.Sequence, note.Who, note.At, note.Text, null);
                work.Put(exam with { Notes = exam.Notes.Add(remark) });
                break;
            case NotExaminedAccepted accepted:
                var steps = new NotExaminedRecord(
                    accepted.Id,
                    work.Sequence,
                    accepted.Who,
                    accepted.At,
                    accepted.Steps,
                    null
                );
                work.Put(exam with { NotExamined = exam.NotExamined.Add(steps) });
                break;
            case FilterStepEntered step:
                DefectGradeSteps.Filter(work, exam, step);
                break;
            case BellGradeEntered grade:
                DefectGradeSteps.Bell(work, exam, grade);
                break;
            case RoomLightEntered or FixationEntered:
                Condition(work, exam, entry);
                break;
            case EntryWithdrawn withdrawn:
                WithdrawalSteps.Withdraw(work, exam, withdrawn);
                break;
            default:
                CourseSteps.Change(work, exam, entry);
                break;
        }
    }

    /// <summary>A person said what the room light or the fixation is.</summary>
    public static void Condition(Workspace work, Exam exam, ExamEntry entry)
    {
        if (work.Lane(exam.Serial).OpenExam != exam.Id)
        {
            work.Put(
                exam.WithIncident(
                    IncidentKind.EntryNotApplied,
                    work.Now(entry.At),
                    "light and fixation can be said only while the exam takes events"
                )
            );
            return;
        }

        var when = work.Now(entry.At);
        if (entry is RoomLightEntered light)
        {
            var said = new LightSaid(when, light.Light, null, ConditionSource.Person, light.Id);
            ConditionSteps.LightBecomes(work, exam.Serial, exam.Id, said);
        }
        else if (entry is FixationEntered fixation)
        {
            var said = new FixationSaid(when, fixation.Fixation, ConditionSource.Person, fixation.Id);
            ConditionSteps.FixationBecomes(work, exam.Serial, exam.Id, said);
        }
    }
}
