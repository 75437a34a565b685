namespace PupilBridge.Journal;

/// <summary>
/// Where a journal ends that nobody writes at the moment, found by reading its last segment alone. That everything before it is
/// unaltered is for <see cref="JournalVerifier"/> to say.
/// </summary>
/// <param name="Position">The last sound position.</param>
/// <param name="IsSound">Whether the last segment, its header included, passed all checks.</param>
public sealed record JournalEnd(JournalPosition Position, bool IsSound)
{
    /// <summary>Reads it.</summary>
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <returns>Null if there is no segment.</returns>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static JournalEnd? Read(IJournalDisk disk, JournalFolder folder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        SegmentChain chain = SegmentChain.Load(disk, folder);
        if (chain.Segments.Count == 0)
            return null;
        using SegmentWalk walk = chain.Walk(disk, chain.Segments.Count - 1, default);
        bool sound = chain.Segments[^1].Header is not null;
        for (WalkStep step = walk.Next(); step != WalkStep.End; step = walk.Next())
            sound &= step == WalkStep.Record;
        return new JournalEnd(walk.Position, sound && walk.UnreadableAt is null);
    }
}
