using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.SimulatedDisk;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// Opens encrypted records from docs/journal.md ("Encrypted segments") alone, with nothing of the product but the master keys that are
/// at hand at the end: what only a dropped key could open is lost.
/// </summary>
internal sealed class SegmentOpening(FaultyDisk disk, JournalFolder folder, Protection keys)
{
    private const int CopyBytes = 4096;
    private const int HeadBytes = 36;
    private const int TagBytes = 16;
    private const int PayloadAt = 56;

    /// <summary>Whether a segment's header says that its records are encrypted.</summary>
    public static bool IsEncrypted(ReadOnlySpan<byte> header) =>
        BinaryPrimitives.ReadInt32LittleEndian(header[120..]) == 1;

    /// <summary>The key of a segment.</summary>
    /// <returns>Null where none can be opened.</returns>
    public AesGcm? KeyOf(string segment, ReadOnlySpan<byte> header)
    {
        var name = Path.ChangeExtension(segment, ".key");
        if (!disk.List(folder.Segments).Contains(name))
            return null;
        var file = disk.Content(folder.InSegments(name));
        return Opened(file, header.Slice(124, 16))
            ?? (file.Length > CopyBytes ? Opened(file.AsSpan(CopyBytes), header.Slice(124, 16)) : null);
    }

    /// <summary>The payload of a record.</summary>
    /// <returns>Null if it does not open.</returns>
    public static byte[]? Open(AesGcm key, ReadOnlySpan<byte> record)
    {
        var stored = record[PayloadAt..^4];
        if (stored.Length < TagBytes)
            return null;
        Span<byte> nonce = stackalloc byte[12];
        nonce.Clear();
        record.Slice(8, 8).CopyTo(nonce[4..]);
        var payload = new byte[stored.Length - TagBytes];
        try
        {
            key.Decrypt(nonce, stored[..^TagBytes], stored[^TagBytes..], payload, record[..PayloadAt]);
            return payload;
        }
        catch (AuthenticationTagMismatchException)
        {
            return null;
        }
    }

    /// <summary>Whether a record says that segments in the clear follow, by setting.</summary>
    /// <param name="record">The record as it lies there.</param>
    /// <param name="payload">Its payload, opened.</param>
    public static bool SaysThatClearFollows(ReadOnlySpan<byte> record, ReadOnlySpan<byte> payload) =>
        BinaryPrimitives.ReadInt32LittleEndian(record[4..]) == 2 && payload.StartsWith("kind=GoesOnInTheClear\n"u8);

    private AesGcm? Opened(ReadOnlySpan<byte> copy, ReadOnlySpan<byte> id)
    {
        if (copy.Length < HeadBytes || !copy.StartsWith("PBSEGKEY"u8) || !copy.Slice(16, 16).SequenceEqual(id))
            return null;
        var end = HeadBytes + BinaryPrimitives.ReadInt32LittleEndian(copy[32..]);
        if (
            copy.Length < end + 4
            || JournalCopy.Crc(copy[..end]) != BinaryPrimitives.ReadUInt32LittleEndian(copy[end..])
        )
            return null;
        var master = keys.Secret(new MasterKeyId(BinaryPrimitives.ReadUInt64BigEndian(copy[(HeadBytes + 1)..])));
        if (master is null)
            return null;
        using var aes = Aes.Create();
        aes.SetKey(master);
        return new AesGcm(aes.DecryptKeyWrapPadded(copy[(HeadBytes + 9)..end]), TagBytes);
    }
}
