using PupilBridge.Keys;

namespace PupilBridge.Journal;

/// <summary>
/// The keys of a journal's encrypted segments, for who changes the master key. Whoever calls this holds the data folder's lock.
/// </summary>
public static class JournalKeys
{
    /// <summary>
    /// Wraps the key of each segment under the current master key, where it is not; the segments stay as they are. Each is durable
    /// when the next one is begun. Cut off anywhere, every key can still be opened, and this can be called again.
    /// </summary>
    /// <returns>How many were wrapped anew.</returns>
    /// <exception cref="JournalKeyException">A key cannot be opened with the master keys at hand.</exception>
    /// <exception cref="IOException">A file cannot be read or written.</exception>
    public static int WrapAnew(IJournalDisk disk, JournalFolder folder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        KeyRing keys = folder.Keys ?? throw new JournalKeyException("There is no master key to wrap anything under.");
        int wrapped = 0;
        foreach (long number in Numbers(disk, folder))
        {
            SegmentKeyRecord record =
                SegmentKeyStore.Read(disk, folder, number, out bool isWhole)
                ?? throw new JournalKeyException(
                    $"{folder.InSegments(SegmentName.KeyOf(number))} is damaged. Put it back from a backup of the journal's folder."
                );
            if (isWhole && KeyRing.WrappedUnder(record.Wrapped) == keys.Current)
                continue;
            SegmentKeyStore.Overwrite(disk, folder, number, Renewed(keys, folder, number, record));
            wrapped++;
        }
        return wrapped;
    }

    /// <summary>How many segments' keys are wrapped under which master key.</summary>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static IReadOnlyDictionary<MasterKeyId, int> Uses(IJournalDisk disk, JournalFolder folder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        return Numbers(disk, folder)
            .Select(number => SegmentKeyStore.Read(disk, folder, number, out _))
            .OfType<SegmentKeyRecord>()
            .CountBy(record => KeyRing.WrappedUnder(record.Wrapped))
            .ToDictionary();
    }

    /// <summary>How many segments there are, and how many of them are encrypted; those with a damaged header count as not.</summary>
    public static (int Segments, int Encrypted) Count(IJournalDisk disk, JournalFolder folder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        IReadOnlyList<SegmentFile> segments = SegmentChain.Load(disk, folder).Segments;
        return (segments.Count, segments.Count(s => s.Header is { Protection: not 0 }));
    }

    /// <summary>The segments that have a key; a key whose segment is not there opens nothing and is left alone.</summary>
    private static List<long> Numbers(IJournalDisk disk, JournalFolder folder)
    {
        List<long> numbers = [];
        IReadOnlyList<string> names = disk.List(folder.Segments);
        HashSet<string> segments = new(names, StringComparer.Ordinal);
        foreach (string name in names)
        {
            if (SegmentName.TryParseKey(name, out long number) && segments.Contains(SegmentName.Of(number)))
                numbers.Add(number);
        }
        return numbers;
    }

    private static SegmentKeyRecord Renewed(KeyRing keys, JournalFolder folder, long number, SegmentKeyRecord record)
    {
        try
        {
            return record with { Wrapped = keys.WrapAnew(record.Wrapped) };
        }
        catch (KeyException e)
        {
            throw new JournalKeyException(
                $"The key in {folder.InSegments(SegmentName.KeyOf(number))} cannot be wrapped anew. {e.Message}",
                e
            );
        }
    }
}
