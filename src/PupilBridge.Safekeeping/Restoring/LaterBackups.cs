using PupilBridge.Safekeeping.Backups;

namespace PupilBridge.Safekeeping.Restoring;

/// <summary>What later backups of the same journal say to one that is restored.</summary>
/// <param name="Files">The wanted files out of them.</param>
/// <param name="KnownUpTo">When the latest backup of the same journal was made that could be asked.</param>
/// <param name="Unread">The numbers of later backups there that cannot be read.</param>
/// <param name="IsCourseKnown">False where it cannot be told which backups are of the same journal, since its end is damaged.</param>
public sealed record LaterOrders(
    IReadOnlyList<ReadOnlyMemory<byte>> Files,
    DateTimeOffset KnownUpTo,
    IReadOnlyList<int> Unread,
    bool IsCourseKnown
);

/// <summary>
/// Finds the backups of a destination whose journal is the one of an older backup, gone on. Two are of one journal if both hold the segment
/// with which the older one ends: a segment's header is never made twice, and what stands behind it is only ever added to. A journal that
/// took another course before that is none of them: its numbers mean something else.
/// </summary>
internal static class LaterBackups
{
    /// <summary>Reads files out of the latest backups of the same journal.</summary>
    /// <param name="place">The destination.</param>
    /// <param name="store">Opens its pieces.</param>
    /// <param name="restored">The backup that is restored.</param>
    /// <param name="wanted">The names of the files.</param>
    /// <param name="cancel">Gives up.</param>
    public static LaterOrders Ask(
        BackupPlace place,
        PieceStore store,
        Catalogue restored,
        IReadOnlyCollection<string> wanted,
        CancellationToken cancel
    )
    {
        if (wanted.Count == 0)
        {
            return new LaterOrders([], restored.MadeAt, [], IsCourseKnown: true);
        }

        List<int> unread = [];
        var later = Later(place, restored, unread);
        List<ReadOnlyMemory<byte>> files = [];
        var knownUpTo = restored.MadeAt;
        // From the latest on: what a journal orders stands in all its later backups, so that the end of each course is enough.
        List<Catalogue> asked = [];
        foreach (var one in later.OrderByDescending(one => one.Number))
        {
            if (asked.Any(end => GoesOnFrom(end, one)))
            {
                continue;
            }

            try
            {
                files.AddRange(
                    store
                        .Read(one.Files, from => HouseFiles.Pick(from, wanted), cancel)
                        .Select(bytes => new ReadOnlyMemory<byte>(bytes))
                );
                asked.Add(one);
                knownUpTo = one.MadeAt > knownUpTo ? one.MadeAt : knownUpTo;
            }
            catch (BackupException)
            {
                unread.Add(one.Number);
            }
        }

        return new LaterOrders(files, knownUpTo, [.. unread.Order()], restored.Segments[^1].Damage is null);
    }

    private static List<Catalogue> Later(BackupPlace place, Catalogue restored, List<int> unread)
    {
        List<Catalogue> later = [];
        foreach (var number in place.Numbers.Where(number => number != restored.Number))
        {
            try
            {
                if (place.Find(number) is var one && GoesOnFrom(one, restored))
                {
                    later.Add(one);
                }
            }
            catch (BackupException) when (number > restored.Number)
            {
                unread.Add(number);
            }
            catch (BackupException)
            {
                // An older one is nothing that was ordered since.
            }
        }

        return later;
    }

    /// <summary>Whether a backup's journal is that of another one, gone on.</summary>
    private static bool GoesOnFrom(Catalogue later, Catalogue earlier) =>
        earlier.Segments[^1] is { Damage: null } end
        && later.Number != earlier.Number
        && later.Sequence >= earlier.Sequence
        && later.Segments.Any(segment =>
            segment.Damage is null && segment.Last >= end.Last && SegmentBackup.IsOneSegment(segment, end)
        );
}
