using System.Runtime.CompilerServices;

namespace PupilBridge.Journal;

/// <summary>
/// Follows the journal of this process live. What is durable is read back from the files (which the operating system still
/// has in memory), so a follower that falls behind costs nobody anything and loses nothing.
/// </summary>
public static class JournalTail
{
    /// <summary>Returns each record from a sequence on as soon as it is durable, until cancelled.</summary>
    /// <param name="journal">The running journal.</param>
    /// <param name="disk">Where it lies.</param>
    /// <param name="fromSequence">The first sequence to return.</param>
    /// <param name="cancel">Ends the following, by <see cref="OperationCanceledException"/>.</param>
    public static async IAsyncEnumerable<JournalRecord> FollowAsync(
        this JournalThread journal,
        IJournalDisk disk,
        long fromSequence,
        [EnumeratorCancellation] CancellationToken cancel = default
    )
    {
        ArgumentNullException.ThrowIfNull(journal);
        using JournalReader reader = JournalReader.Live(
            disk,
            journal.Folder,
            fromSequence,
            () => journal.Durable.Position.Sequence
        );
        long seen = fromSequence - 1;
        while (true)
        {
            await journal.Durable.WaitBeyondAsync(seen, cancel).ConfigureAwait(false);
            long upTo = journal.Durable.Position.Sequence;
            while (reader.TryRead() is { } record)
            {
                yield return record;
                cancel.ThrowIfCancellationRequested();
            }
            seen = Math.Max(seen, upTo);
        }
    }
}
