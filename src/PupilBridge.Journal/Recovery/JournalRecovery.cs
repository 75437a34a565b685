namespace PupilBridge.Journal;

/// <summary>Where a new segment continues, and what is to be told about it.</summary>
/// <param name="Start">What was found.</param>
/// <param name="PredecessorNumber">The segment to name as predecessor, 0 for none.</param>
/// <param name="NextNumber">The number of the next segment: higher than any there is.</param>
/// <param name="Notices">What the journal should say about what was found.</param>
/// <param name="PredecessorForm">How the predecessor is stored.</param>
/// <param name="MayGoOnInTheClear">
/// Whether a segment in the clear may follow as it is: nothing is encrypted so far, or a record under the key says so already.
/// </param>
internal sealed record RecoveredJournal(
    JournalStart Start,
    long PredecessorNumber,
    long NextNumber,
    IReadOnlyList<JournalNotice> Notices,
    StoredForm PredecessorForm,
    bool MayGoOnInTheClear
);

/// <summary>
/// Finds, at a start, how far the journal is good. Only the last segment is read whole: each earlier one was vouched for
/// when its successor was opened, and <see cref="JournalVerifier"/> reads them all.
/// A torn tail is copied to a file of its own and then cut off. A segment with a damaged middle is left exactly as it is;
/// the journal goes on after its last sound record, so that the clinic can go on examining, and says in a notice what is
/// missing.
/// </summary>
internal static class JournalRecovery
{
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="encrypt">Whether it goes on encrypted.</param>
    public static RecoveredJournal Run(IJournalDisk disk, JournalFolder folder, bool encrypt)
    {
        SegmentChain chain = SegmentChain.Load(disk, folder);
        var keys = new ChainKeys(disk, folder, chain);
        RequireKeys(keys, chain);
        DeleteUnfinished(disk, folder);
        if (chain.Segments.Count == 0)
            return First();
        List<JournalProblem> problems = [.. chain.Problems];
        List<JournalNotice> notices = [.. problems.Select(p => JournalNotice.From(p, 0))];
        SegmentFile last = chain.Segments[^1];
        StoredForm form = keys.FormOf(chain.Segments.Count - 1);
        ClearStanding standing = TellOfClear(keys, chain, encrypt, problems, notices);
        LastSegment found = WalkToEnd(disk, chain, problems, notices);
        if (found.TornBytes > 0 && !found.Damaged)
            notices.Add(SegmentTrimmer.SetAside(disk, folder, last, found.EndOffset));
        else if (!found.Damaged)
            SegmentTrimmer.Trim(disk, last.Path, found.EndOffset);
        SegmentTrimmer.WriteAgain(disk, last.Path, found.LastCommitOffset, found.EndOffset);
        var start = new JournalStart
        {
            IsFirst = false,
            LastStopWasClean = found.EndedCleanly,
            SameBoot = disk.BootId != Guid.Empty && last.Header?.BootId == disk.BootId,
            Recovered = found.Position,
            Problems = problems,
        };
        long highest = Math.Max(last.Number, chain.Abandoned.Select(s => s.Number).DefaultIfEmpty().Max());
        bool mayBeClear = standing is ClearStanding.NothingEncrypted or ClearStanding.Announced;
        return new RecoveredJournal(start, last.Number, highest + 1, notices, form, mayBeClear);
    }

    private static RecoveredJournal First() =>
        new(
            new JournalStart
            {
                IsFirst = true,
                LastStopWasClean = true,
                SameBoot = false,
                Recovered = default,
                Problems = [],
            },
            PredecessorNumber: 0,
            NextNumber: 1,
            [],
            StoredForm.NotTold,
            MayGoOnInTheClear: true
        );

    /// <summary>
    /// Walks the last segment; where its header is damaged also those before it, back to one that says where it begins.
    /// </summary>
    private static LastSegment WalkToEnd(
        IJournalDisk disk,
        SegmentChain chain,
        List<JournalProblem> problems,
        List<JournalNotice> notices
    )
    {
        int last = chain.Segments.Count - 1;
        int first = last;
        while (first > 0 && chain.Segments[first].Header is null)
            first--;
        LastSegment found = default;
        for (int index = first; index <= last; index++)
            found = WalkOne(disk, chain, index, found.Position, problems, notices);
        return found;
    }

    private static LastSegment WalkOne(
        IJournalDisk disk,
        SegmentChain chain,
        int index,
        JournalPosition before,
        List<JournalProblem> problems,
        List<JournalNotice> notices
    )
    {
        SegmentFile segment = chain.Segments[index];
        using SegmentWalk walk = chain.Walk(disk, index, before);
        bool endedCleanly = false;
        (long durableBefore, long lastCommitAt) = (-1, walk.Offset);
        for (WalkStep step = walk.Next(); step != WalkStep.End; step = walk.Next())
        {
            endedCleanly = step == WalkStep.Record && RecordLayout.ReadClass(walk.Record) == RecordClass.CleanStop;
            // All records of one commit say the same here.
            if (
                step == WalkStep.Record
                && RecordLayout.ReadDurableBefore(walk.Record) is long others
                && others != durableBefore
            )
                (durableBefore, lastCommitAt) = (others, walk.RecordOffset);
            if (step == WalkStep.Damage)
            {
                JournalProblem problem = JournalProblem.Damaged(segment.Name, walk.Damage);
                problems.Add(problem);
                notices.Add(JournalNotice.From(problem, walk.Damage.EndOffset - walk.Damage.Offset));
            }
        }
        if (segment.Unreadable is { } refusal)
            throw new IOException($"The disk cannot read {segment.Path}: {refusal.Message}", refusal);
        if (walk.UnreadableAt is long unreadable)
            throw new IOException($"The disk cannot read {segment.Path} at byte {unreadable}.");
        long torn = walk.Tail == SegmentTail.Torn ? walk.FileLength - walk.Offset : 0;
        if (torn > 0)
            problems.Add(JournalProblem.Torn(segment.Name, walk.Offset, torn));
        bool damaged = walk.AfterDamage || segment.Header is null;
        return new LastSegment(walk.Position, lastCommitAt, walk.Offset, torn, damaged, endedCleanly && torn == 0);
    }

    /// <summary>
    /// Sees to it that every encrypted segment can be read, before anything is changed. A service that goes on without its earlier
    /// entries would show a clinic patients without their exams.
    /// </summary>
    private static void RequireKeys(ChainKeys keys, SegmentChain chain)
    {
        for (int index = 0; index < chain.Segments.Count; index++)
            keys.Open(index)?.Dispose();
    }

    /// <summary>
    /// Where the journal ends in segments in the clear that the key should have announced and did not, says so. They are read all the same:
    /// there is nothing to be put back, a clinic may have run an older version, and going on harms none of what stands there.
    /// </summary>
    /// <returns>What holds for a segment in the clear that would follow.</returns>
    private static ClearStanding TellOfClear(
        ChainKeys keys,
        SegmentChain chain,
        bool encrypt,
        List<JournalProblem> problems,
        List<JournalNotice> notices
    )
    {
        int first = chain.Segments.Count;
        while (first > 0 && keys.FormOf(first - 1) != StoredForm.Encrypted)
            first--;
        // What is encrypted and goes on so asks for nothing, and its last segment is long to read once more.
        if (encrypt && first == chain.Segments.Count)
            return ClearStanding.Unannounced;
        ClearStanding standing = ClearRule.Before(keys, first);
        if (standing != ClearStanding.Unannounced || first == chain.Segments.Count)
            return standing;
        JournalProblem problem = JournalProblem.InTheClear(chain.Segments[first].Name, standing)!;
        problems.Add(problem);
        notices.Add(JournalNotice.From(problem, 0));
        return standing;
    }

    private static void DeleteUnfinished(IJournalDisk disk, JournalFolder folder)
    {
        foreach (string name in disk.List(folder.Segments))
        {
            if (name.EndsWith(SegmentName.Unfinished, StringComparison.Ordinal))
                disk.Delete(folder.InSegments(name));
        }
    }

    private readonly record struct LastSegment(
        JournalPosition Position,
        long LastCommitOffset,
        long EndOffset,
        long TornBytes,
        bool Damaged,
        bool EndedCleanly
    );
}
