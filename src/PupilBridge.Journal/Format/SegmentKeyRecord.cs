using System.Buffers.Binary;

namespace PupilBridge.Journal;

/// <summary>
/// The wrapped key of an encrypted segment, in a file beside it and outside the chain, so that another master key can wrap it anew
/// while the segment stays as it is. The file holds it twice, 4,096 bytes apart, so that one spoilt sector does not cost a segment.
/// <code>
///  0  8 magic "PBSEGKEY"            32  4 length n of the wrapped key
///  8  4 format version, 1           36  n wrapped key (PupilBridge.Keys)
/// 12  4 zero                        36+n 4 CRC-32C of all before
/// 16 16 the data key's id, as in the segment's header
/// </code>
/// </summary>
/// <param name="Id">The data key's id.</param>
/// <param name="Wrapped">The key, wrapped under a master key.</param>
internal sealed record SegmentKeyRecord(Guid Id, byte[] Wrapped)
{
    public const int SecondCopyAt = 4096;
    private const int Version = 1;
    private const int HeadBytes = 36;
    private const int MaxWrappedBytes = 1024;
    private static ReadOnlySpan<byte> Magic => "PBSEGKEY"u8;

    /// <summary>The whole file.</summary>
    public byte[] Encode()
    {
        byte[] file = new byte[SecondCopyAt + HeadBytes + Wrapped.Length + 4];
        Span<byte> s = file.AsSpan(SecondCopyAt);
        Magic.CopyTo(s);
        BinaryPrimitives.WriteInt32LittleEndian(s[8..], Version);
        Id.TryWriteBytes(s[16..], bigEndian: true, out _);
        BinaryPrimitives.WriteInt32LittleEndian(s[32..], Wrapped.Length);
        Wrapped.CopyTo(s[HeadBytes..]);
        BinaryPrimitives.WriteUInt32LittleEndian(s[^4..], Crc32C.Of(s[..^4]));
        s.CopyTo(file);
        return file;
    }

    /// <summary>Reads a file; null when neither copy is sound.</summary>
    /// <param name="file">The file's bytes.</param>
    /// <param name="isWhole">Whether both copies are sound and the same, and nothing else stands in the file.</param>
    public static SegmentKeyRecord? TryDecode(ReadOnlySpan<byte> file, out bool isWhole)
    {
        SegmentKeyRecord? found =
            TryDecodeCopy(file) ?? (file.Length > SecondCopyAt ? TryDecodeCopy(file[SecondCopyAt..]) : null);
        isWhole = found is not null && file.SequenceEqual(found.Encode());
        return found;
    }

    private static SegmentKeyRecord? TryDecodeCopy(ReadOnlySpan<byte> s)
    {
        if (s.Length < HeadBytes || !s.StartsWith(Magic))
            return null;
        int wrapped = BinaryPrimitives.ReadInt32LittleEndian(s[32..]);
        if (wrapped is < 1 or > MaxWrappedBytes || s.Length < HeadBytes + wrapped + 4)
            return null;
        int end = HeadBytes + wrapped;
        if (BinaryPrimitives.ReadUInt32LittleEndian(s[end..]) != Crc32C.Of(s[..end]))
            return null;
        // A later version may mean something else by its bytes; it is no key to this program.
        return BinaryPrimitives.ReadInt32LittleEndian(s[8..]) == Version
            ? new SegmentKeyRecord(new Guid(s.Slice(16, 16), bigEndian: true), s[HeadBytes..end].ToArray())
            : null;
    }
}
