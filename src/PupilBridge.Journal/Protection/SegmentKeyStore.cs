using System.Security.Cryptography;
using PupilBridge.Keys;

namespace PupilBridge.Journal;

/// <summary>Makes, finds and opens the keys of encrypted segments.</summary>
internal static class SegmentKeyStore
{
    /// <summary>
    /// Makes the key of a new segment and its file. When this returns the file is durable, so that no record is ever encrypted under
    /// a key that could be lost with the machine.
    /// </summary>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public static (SegmentCipher Cipher, Guid Id) Make(IJournalDisk disk, JournalFolder folder, long number)
    {
        KeyRing keys =
            folder.Keys ?? throw new JournalKeyException("There is no master key to encrypt the journal under.");
        Span<byte> key = stackalloc byte[SegmentCipher.KeyBytes];
        RandomNumberGenerator.Fill(key);
        var id = new Guid(RandomNumberGenerator.GetBytes(16));
        Create(disk, folder, number, new SegmentKeyRecord(id, keys.Wrap(key)));
        var cipher = new SegmentCipher(key);
        CryptographicOperations.ZeroMemory(key);
        return (cipher, id);
    }

    /// <summary>
    /// Wraps a segment's key anew: over the first copy, and when that is durable over the second. Whenever this is cut off, one copy
    /// is sound, wrapped under the one master key or the other.
    /// </summary>
    public static void Overwrite(IJournalDisk disk, JournalFolder folder, long number, SegmentKeyRecord record)
    {
        ReadOnlySpan<byte> bytes = record.Encode();
        using IJournalFile file = disk.Open(folder.InSegments(SegmentName.KeyOf(number)), JournalFileMode.ReadWrite);
        file.Write(bytes[..(bytes.Length - SegmentKeyRecord.SecondCopyAt)], 0);
        file.Sync();
        file.Write(bytes[SegmentKeyRecord.SecondCopyAt..], SegmentKeyRecord.SecondCopyAt);
        file.Sync();
    }

    private static void Create(IJournalDisk disk, JournalFolder folder, long number, SegmentKeyRecord record)
    {
        string path = folder.InSegments(SegmentName.KeyOf(number));
        string unfinished = path + SegmentName.Unfinished;
        disk.Delete(unfinished);
        using (IJournalFile file = disk.Open(unfinished, JournalFileMode.CreateNew))
        {
            file.Write(record.Encode(), 0);
            file.Sync();
        }
        // A key of this number that is there already belongs to a segment that was never made.
        disk.Delete(path);
        disk.Rename(unfinished, path);
        disk.SyncFolder(folder.Segments);
    }

    /// <summary>Takes away the key of a segment that could not be made. If that fails the file stays, which harms nobody.</summary>
    public static void Discard(IJournalDisk disk, JournalFolder folder, long number)
    {
        try
        {
            disk.Delete(folder.InSegments(SegmentName.KeyOf(number)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A key without a segment opens nothing.
        }
    }

    /// <summary>The file of a segment's key; null where there is none, or none that is sound.</summary>
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="number">The segment.</param>
    /// <param name="isWhole">Whether the file is as it was written.</param>
    public static SegmentKeyRecord? Read(IJournalDisk disk, JournalFolder folder, long number, out bool isWhole)
    {
        isWhole = false;
        string path = folder.InSegments(SegmentName.KeyOf(number));
        byte[] bytes = new byte[2 * SegmentKeyRecord.SecondCopyAt];
        int count = 0;
        try
        {
            using IJournalFile file = disk.Open(path, JournalFileMode.Read);
            count = file.Read(bytes, 0);
        }
        catch (FileNotFoundException)
        {
            return null;
        }
        return SegmentKeyRecord.TryDecode(bytes.AsSpan(0, count), out isWhole);
    }

    /// <summary>The cipher of a segment; null where its records are not encrypted.</summary>
    /// <exception cref="JournalKeyException">They are, and the keys at hand do not open them.</exception>
    public static SegmentCipher? Open(IJournalDisk disk, JournalFolder folder, SegmentFile segment)
    {
        if (segment.Header is { Protection: 0 })
            return null;
        SegmentKeyRecord? record = Read(disk, folder, segment.Number, out _);
        // Where the header is damaged, nothing but the key beside it says whether the records are encrypted.
        if (segment.Header is null && record is null)
            return null;
        Guid id = segment.Header?.DataKeyId ?? record!.Id;
        if (record is null || record.Id != id)
            throw new JournalKeyException(
                $"{segment.Path} is encrypted under key {id}, and {SegmentName.KeyOf(segment.Number)} beside it "
                    + $"{(record is null ? "is missing or damaged" : $"holds another one, {record.Id}")}. Nothing was changed. "
                    + "Put that file back from a backup of the journal's folder."
            );
        return Unwrap(folder, segment, record);
    }

    private static SegmentCipher Unwrap(JournalFolder folder, SegmentFile segment, SegmentKeyRecord record)
    {
        try
        {
            if (folder.Keys is not { } keys)
                throw new JournalKeyException(
                    $"{segment.Path} is encrypted under key {record.Id}, which master key {KeyRing.WrappedUnder(record.Wrapped)} "
                        + "opens; no master key is at hand. Nothing was changed. Put the key file back, or name it in the settings."
                );
            byte[] key = keys.Unwrap(record.Wrapped);
            try
            {
                return new SegmentCipher(key);
            }
            finally
            {
                CryptographicOperations.ZeroMemory(key);
            }
        }
        catch (Exception e) when (e is KeyException or ArgumentException)
        {
            throw new JournalKeyException(
                $"{segment.Path} is encrypted under key {record.Id}, which cannot be opened. Nothing was changed. {e.Message}",
                e
            );
        }
    }
}
