using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;

namespace PupilBridge.Clinic.Desk;

/// <summary>
/// Asks the domain what an entry would do if it came next, without doing it. The rules for when a judgement counts, or when an
/// exam can be attached, stand in the reducer alone; the reducer is a pure function, so that asking costs nothing.
/// </summary>
internal static class Rehearsal
{
    private static readonly PersonId Nobody = new("rehearsal");

    /// <summary>Why an entry would not count.</summary>
    /// <returns>Null if it would.</returns>
    public static EntryObstacle? Of(ExamBook book, Func<ExamId, Exam?> find, PersonEntry entry)
    {
        var next = new JournalSequence(book.LastApplied.Value + 1);
        var (_, changes) = ExamReducer.Apply(book, new SequencedEntry(next, entry), find);
        return changes.OfType<EntryIgnored>().FirstOrDefault() is { } ignored
            ? new EntryObstacle(ignored.Reason, ClinicText.Desk["Exam.LookMissing"])
            : changes
                .Select(change =>
                    change switch
                    {
                        ExamChanged exam => exam.Exam,
                        BenchRunChanged run => run.Run,
                        _ => null,
                    }
                )
                .OfType<Exam>()
                .Select(sitting => In(sitting, entry, next))
                .FirstOrDefault(o => o is not null);
    }

    /// <summary>Why an entry that stands in the journal does not count.</summary>
    /// <returns>Null if it does.</returns>
    public static EntryObstacle? In(Exam exam, PersonEntry entry, JournalSequence sequence)
    {
        if (exam.RefusedJudgements.FirstOrDefault(refused => refused.Entry == entry.Id) is { } judgement)
        {
            return RefusalWords.Of(judgement);
        }

        return
            exam.Incidents.LastOrDefault(i => i.Kind == IncidentKind.EntryNotApplied && i.When.Sequence == sequence)
                is { } incident
            ? new EntryObstacle(CannotTake(exam, incident.Detail), NextStep(exam, entry))
            : null;
    }

    private static string CannotTake(Exam exam, string detail) =>
        IsRun(exam)
            ? ClinicText.Desk.Get("Run.CannotTake", exam.Id, detail)
            : ClinicText.Desk.Get("Exam.CannotTake", exam.Id, detail);

    private static string NextStep(Exam exam, PersonEntry entry) =>
        exam.IsSealed && entry is not ExamSigned ? ClinicText.Desk["Exam.SignedNext"]
        : IsRun(exam) ? ClinicText.Desk.Get("Run.LookAgain", exam.Id)
        : ClinicText.Desk.Get("Exam.LookAgain", exam.Id);

    private static bool IsRun(Exam exam) => exam.Bench is not null;

    /// <summary>Whether a judgement about an exam would count if it came next.</summary>
    public static bool WouldCount(ExamBook book, Func<ExamId, Exam?> find, Exam exam, Judgement judgement)
    {
        var entry = new JudgementEntered
        {
            Id = new EntryId(UInt128.MaxValue),
            Who = Nobody,
            At = exam.LastActivity.At,
            ProgramVersion = book.ProgramVersion,
            Exam = exam.Id,
            Judgement = judgement,
            StepSeen = null,
            StimulusSeen = null,
        };
        return Of(book, find, entry) is null;
    }
}

/// <summary>What stands in the way of an entry.</summary>
/// <param name="Reason">What it is, for the person who entered it.</param>
/// <param name="NextStep">What to do next.</param>
internal sealed record EntryObstacle(string Reason, string NextStep);
