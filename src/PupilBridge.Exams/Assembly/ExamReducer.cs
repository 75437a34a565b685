using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Steps;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly;

/// <summary>
/// From the journal's entries to exams: a pure function. Equal entries in equal order give equal exams, always.
/// </summary>
public static class ExamReducer
{
    /// <summary>
    /// Applies one entry. It never throws for what an entry says: whatever cannot be applied is kept in an exam with its
    /// reason, listed as orphaned, or ignored with a reason.
    /// </summary>
    /// <param name="book">What the entries before it left.</param>
    /// <param name="entry">The entry; entries come in the order of the journal.</param>
    /// <param name="lookup">
    /// Gives an exam that has left the book, as last emitted, so that it can take a late entry; null if there is no such
    /// exam. It must answer from what earlier changes said and from nothing else.
    /// </param>
    /// <returns>The new book, and what changed: at least one change.</returns>
    public static (ExamBook Book, ImmutableArray<ExamChange> Changes) Apply(
        ExamBook book,
        SequencedEntry entry,
        Func<ExamId, Exam?> lookup
    )
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(lookup);
        var work = new Workspace(book, entry, lookup);
        if (entry.Sequence <= book.LastApplied)
            work.Ignore("It was applied already.");
        else
            Dispatch(work, entry.Entry);
        return work.Finish();
    }

    private static void Dispatch(Workspace work, JournalEntry entry)
    {
        switch (entry)
        {
            case InstrumentReported reported:
                EventSteps.Apply(work, reported);
                break;
            case PersonEntry person:
                PersonSteps.Apply(work, person);
                break;
            case SystemEntry system:
                SystemSteps.Apply(work, system);
                break;
            default:
                work.Ignore($"Entries of the kind {entry.GetType().Name} concern no exam.");
                break;
        }

        SigningSteps.TellOfArrivals(work, entry);
    }
}
