using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Two numbers for one person, and their parting. Both change nothing but how what is known of a patient is gathered; an entry that
/// would make a chain of mergings is passed over, since then the person behind a number would depend on how it came about.
/// </summary>
internal static class MergingSteps
{
    public static void Merge(Workspace work, PatientsMerged entry)
    {
        if (work.Book.Mergings.WhyNot(entry.Kept, entry.Merged) is { } obstacle)
        {
            work.Ignore($"Patient {entry.Merged} cannot be merged into {entry.Kept}: {Words(work, entry, obstacle)}.");
            return;
        }

        var merging = new PatientMerging(entry.Id, work.Sequence, entry.Who, entry.At, entry.Kept, entry.Merged);
        work.SetInForce(book => book with { Mergings = book.Mergings.With(merging) });
        work.Add(new EntryNoted(work.Sequence, entry));
    }

    public static void Part(Workspace work, PatientsParted entry)
    {
        if (work.Book.Mergings.MadeBy(entry.Merging) is not { } merging)
        {
            work.Ignore($"No merging stands by the entry {entry.Merging}; it may have been taken back already.");
            return;
        }

        work.SetInForce(book => book with { Mergings = book.Mergings.Without(merging) });
        work.Add(new EntryNoted(work.Sequence, entry));
    }

    private static string Words(Workspace work, PatientsMerged entry, MergingObstacle obstacle) =>
        obstacle switch
        {
            MergingObstacle.WithItself => "it is the same number",
            MergingObstacle.GoneAlready => $"it is merged into {work.Book.Mergings.Surviving(entry.Merged)} already",
            MergingObstacle.KeptIsGone =>
                $"{entry.Kept} is merged into {work.Book.Mergings.Surviving(entry.Kept)} itself",
            _ => "other numbers are merged into it",
        };
}
