using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>What technicians do on the bench: runs, from beginning to end, and the sets of discs for them.</summary>
internal static class BenchSteps
{
    /// <summary>A run in which nothing happens is over after this time, so that a forgotten one takes no patient's readings. Ours.</summary>
    public const int SilenceMilliseconds = 30 * 60 * 1000;

    // What is no pupil may well be a disc.
    private static readonly Instrument.Micrometres SmallestDisc = new(100);
    private static readonly Instrument.Micrometres LargestDisc = new(
        (int)(DiscSetCheck.WidestMillimetres * 1000) + 1000
    );

    private static bool IsOfBench(ExamEntry entry) =>
        entry is BenchReadingMarked or BenchRunEnded or CalibrationIssued or RepeatabilityAdopted;

    public static void Begin(Workspace work, BenchRunBegun begun)
    {
        if (BenchRunCheck.WhyNot(begun) is { } obstacle)
        {
            work.Ignore(obstacle);
            return;
        }

        var lane = work.Lane(begun.Serial);
        if (lane.OpenExam is { } open && work.Find(open) is { } before)
        {
            if (before.EntryIds.Contains(begun.Id))
            {
                work.Ignore($"Run {before.Id} was begun by this entry; it was sent twice.");
                return;
            }

            Borders.Close(work, open, work.Now(begun.At), ClosingReason.AnotherOpened);
            lane = work.Lane(begun.Serial);
        }

        var run = Borders.NewExam(work, lane, new(work.Now(begun.At), begun.Who, null));
        run = run with { EntryIds = [begun.Id], Profile = OnTheBench(run.Profile), Bench = RunOf(begun) };
        work.PutNew(ExamChoice.CarryIn(run.WithEntry(work.Sequence), lane));
        work.Put(lane with { OpenExam = run.Id, OpenExamHasEvents = false, IsFresh = true, Pending = null });
    }

    public static void Discs(Workspace work, DiscSetEntered entered)
    {
        if (DiscSetCheck.Of(entered.Set) is { Count: > 0 } faults)
        {
            work.Ignore(
                $"The set of discs '{entered.Set.Name}' cannot be used ({string.Join(", ", faults)}). Compare it with its certificate."
            );
            return;
        }

        work.SetInForce(book => book with { DiscSets = book.DiscSets.SetItem(entered.Set.Name, entered) });
        work.Add(new EntryNoted(work.Sequence, entered));
    }

    /// <summary>
    /// Takes a bench's entry about an exam of a patient: it leaves no trace in the exam, whose record is none of the bench's business.
    /// </summary>
    /// <returns>False if it is anything else.</returns>
    public static bool Strayed(Workspace work, Exam exam, ExamEntry entry)
    {
        if (exam.Bench is not null || !IsOfBench(entry))
            return false;
        work.Ignore($"Sitting {exam.Id} is an exam of a patient, and no run on the bench. Name a run of the bench.");
        return true;
    }

    /// <summary>An entry about a run.</summary>
    public static void Change(Workspace work, Exam exam, BenchRun run, ExamEntry entry)
    {
        switch (entry)
        {
            case BenchReadingMarked marked:
                Mark(work, exam, run, marked);
                break;
            case BenchRunEnded ended:
                End(work, exam, run, ended);
                break;
            case CalibrationIssued issued:
                KeepingSteps.Issue(work, exam, run, issued);
                break;
            case RepeatabilityAdopted adopted:
                KeepingSteps.Adopt(work, exam, run, adopted);
                break;
            case RoomLightEntered or FixationEntered:
                PersonSteps.Condition(work, exam, entry);
                break;
            case NoteEntered note:
                var remark = new NoteRecord(note.Id, work.Sequence, note.Who, note.At, note.Text, null);
                work.Put(exam with { Notes = exam.Notes.Add(remark) });
                break;
            default:
                Refuse(work, exam, entry, "it is a run on the bench, and no exam of a patient");
                break;
        }
    }

    private static void Mark(Workspace work, Exam exam, BenchRun run, BenchReadingMarked marked)
    {
        var isNow = run.Marks.Where(mark => mark.Reading == marked.Reading).Latest?.IsSetAside ?? false;
        string? obstacle =
            run.Certificate is { } number ? $"certificate {number} was issued for it; measure again in a new run"
            : run.IsAdopted ? "its repeatability was adopted; measure again in a new run"
            : exam.Captures.All(capture => capture.CompletedBy != marked.Reading)
                ? $"it has no reading {marked.Reading}"
            : isNow == marked.IsSetAside ? "the reading stands so already"
            : string.IsNullOrWhiteSpace(marked.Reason) ? "a reason is needed"
            : null;
        if (obstacle is not null)
        {
            Refuse(work, exam, marked, obstacle);
            return;
        }

        var mark = new ReadingMark(
            marked.Id,
            work.Sequence,
            marked.Who,
            marked.At,
            marked.Reading,
            marked.IsSetAside,
            marked.Reason
        );
        work.Put(exam with { Bench = run with { Marks = run.Marks.Add(mark) } });
    }

    private static void End(Workspace work, Exam exam, BenchRun run, BenchRunEnded ended)
    {
        if (run.Ending is not null)
            Refuse(work, exam, ended, "it was ended before");
        else if (!ended.IsFinished && string.IsNullOrWhiteSpace(ended.Reason))
            Refuse(work, exam, ended, "a reason is needed");
        else
        {
            var ending = new RunEnding(work.Sequence, ended.Who, ended.At, ended.IsFinished, ended.Reason);
            work.Put(exam with { Bench = run with { Ending = ending } });
            if (exam.TakesEvents)
                Borders.Close(
                    work,
                    exam.Id,
                    work.Now(ended.At),
                    ended.IsFinished ? ClosingReason.MadeReady : ClosingReason.SetAside
                );
        }
    }

    private static BenchRun RunOf(BenchRunBegun begun) =>
        new()
        {
            Kind = begun.Kind,
            Technician = begun.Who,
            DiscSet = begun.DiscSet,
            Plan = begun.Plan,
            Seed = begun.Seed,
            Rule = begun.Rule,
            StraightnessMillimetres = begun.StraightnessMillimetres,
            TemperatureCelsius = begun.TemperatureCelsius,
            Conditions = begun.Conditions,
        };

    private static Profile OnTheBench(Profile profile) =>
        profile with
        {
            Captures = profile.Captures with { SmallestDiameter = SmallestDisc, LargestDiameter = LargestDisc },
            Closing = profile.Closing with { SilenceMilliseconds = SilenceMilliseconds },
        };

    /// <summary>Keeps an entry that does not count in its run, with the reason.</summary>
    public static void Refuse(Workspace work, Exam exam, ExamEntry entry, string why) =>
        work.Put(exam.WithIncident(IncidentKind.EntryNotApplied, work.Now(entry.At), why));
}
