namespace PupilBridge.ExamLog;

/// <summary>
/// What a collection must hold, kept beside the position: an engine that loses a document, or serves one as it was before its last
/// change, says nothing.
/// </summary>
/// <param name="Count">How many documents there are.</param>
/// <param name="Checks">The sum of their check values, wrapped around at 2^64.</param>
internal readonly record struct Tally(long Count, long Checks)
{
    /// <summary>The tally after one document took the place of another, or of none.</summary>
    /// <param name="before">The check value of the one that was there; null if none was.</param>
    /// <param name="after">The check value of the new one.</param>
    public Tally Replace(long? before, long after) =>
        unchecked(new Tally(before is null ? Count + 1 : Count, Checks - (before ?? 0) + after));

    /// <summary>The tally after something was taken away.</summary>
    /// <param name="before">The check value of what was there.</param>
    public Tally Remove(long before) => unchecked(new Tally(Count - 1, Checks - before));
}

/// <summary>The tallies of all collections while a transaction changes them.</summary>
/// <param name="before">As they were, in the order of <see cref="Names.Collections"/>.</param>
internal sealed class TallySheet(IReadOnlyList<Tally> before)
{
    private readonly Tally[] tallies = [.. before];

    /// <summary>As they are now, in the order of <see cref="Names.Collections"/>.</summary>
    public IReadOnlyList<Tally> All => tallies;

    /// <summary>The tally of one collection.</summary>
    public Tally this[string collection]
    {
        get => tallies[Array.IndexOf(Names.Collections, collection)];
        set => tallies[Array.IndexOf(Names.Collections, collection)] = value;
    }
}
