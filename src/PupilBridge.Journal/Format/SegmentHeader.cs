using System.Buffers.Binary;
using System.Text;

namespace PupilBridge.Journal;

/// <summary>Why a segment was opened.</summary>
public enum SegmentReason
{
    /// <summary>Not known.</summary>
    None = 0,

    /// <summary>The program started.</summary>
    Start = 1,

    /// <summary>The segment before it was full.</summary>
    Full = 2,

    /// <summary>A write or a sync of the segment before it failed.</summary>
    Failure = 3,
}

/// <summary>How a segment's records are stored, as another segment's header tells.</summary>
internal enum StoredForm
{
    /// <summary>Nothing is told: no segment is meant, it was not known, or an older program wrote the header.</summary>
    NotTold = 0,

    /// <summary>In the clear.</summary>
    Clear = 1,

    /// <summary>Encrypted.</summary>
    Encrypted = 2,
}

/// <summary>
/// The first 256 bytes of a segment. Every format version keeps the magic, the version and the checksum where they are,
/// so that a newer segment is told from a damaged one.
/// <code>
///   0  8 magic "PBJOURNL"            104 16 writer instance (RFC 4122 byte order)
///   8  4 format version              120  4 protection (0 none, 1 AES-256-GCM)
///  12  4 reason                      124 16 the data key's id (RFC 4122 byte order), zero for none
///  16  8 segment number              140  4 whether its writer announces a segment in the clear (0 no, 1 yes)
///  24  8 first sequence              144  4 how the predecessor is stored (StoredForm); then 28 zero
///  32  8 predecessor's number, 0 none 176 64 writer, UTF-8, padded with zero
///  40  8 last sequence before        240 12 zero; 252 4 CRC-32C of bytes 0 to 251
///  48 32 chain value before
///  80  8 created, µs since 1970-01-01 UTC
///  88 16 operating system's boot id (RFC 4122 byte order, 0 unknown)
/// </code>
/// </summary>
internal sealed record SegmentHeader
{
    public const int ByteCount = 256;
    public const int CurrentVersion = 1;

    /// <summary>The records are encrypted one by one by AES-256-GCM; see <see cref="SegmentCipher"/>.</summary>
    public const int AesGcmProtection = 1;

    private const int CrcAt = 252;
    private const int WriterBytes = 64;
    private static ReadOnlySpan<byte> Magic => "PBJOURNL"u8;

    public int Version { get; init; } = CurrentVersion;
    public SegmentReason Reason { get; init; }
    public long Number { get; init; }
    public long PredecessorNumber { get; init; }
    public JournalPosition Predecessor { get; init; }
    public long CreatedUnixMicroseconds { get; init; }
    public Guid BootId { get; init; }
    public Guid WriterInstance { get; init; }
    public int Protection { get; init; }

    /// <summary>Which key its records are encrypted under; empty where they are not.</summary>
    public Guid DataKeyId { get; init; }

    /// <summary>
    /// Whether the program that wrote it never begins a segment in the clear after an encrypted one without a record under the key that says so.
    /// </summary>
    public bool AnnouncesClear { get; init; } = true;

    /// <summary>How the predecessor is stored, should that one's own header ever be lost.</summary>
    public StoredForm PredecessorForm { get; init; }

    public string Writer { get; init; } = "";

    public long FirstSequence => Predecessor.Sequence + 1;

    public byte[] Encode()
    {
        byte[] bytes = new byte[ByteCount];
        Span<byte> s = bytes;
        Magic.CopyTo(s);
        BinaryPrimitives.WriteInt32LittleEndian(s[8..], Version);
        BinaryPrimitives.WriteInt32LittleEndian(s[12..], (int)Reason);
        BinaryPrimitives.WriteInt64LittleEndian(s[16..], Number);
        BinaryPrimitives.WriteInt64LittleEndian(s[24..], FirstSequence);
        BinaryPrimitives.WriteInt64LittleEndian(s[32..], PredecessorNumber);
        BinaryPrimitives.WriteInt64LittleEndian(s[40..], Predecessor.Sequence);
        Predecessor.Hash.Write(s[48..]);
        BinaryPrimitives.WriteInt64LittleEndian(s[80..], CreatedUnixMicroseconds);
        BootId.TryWriteBytes(s[88..], bigEndian: true, out _);
        WriterInstance.TryWriteBytes(s[104..], bigEndian: true, out _);
        BinaryPrimitives.WriteInt32LittleEndian(s[120..], Protection);
        DataKeyId.TryWriteBytes(s[124..], bigEndian: true, out _);
        BinaryPrimitives.WriteInt32LittleEndian(s[140..], AnnouncesClear ? 1 : 0);
        BinaryPrimitives.WriteInt32LittleEndian(s[144..], (int)PredecessorForm);
        Encoding.UTF8.GetEncoder().Convert(Writer, s.Slice(176, WriterBytes), flush: false, out _, out _, out _);
        BinaryPrimitives.WriteUInt32LittleEndian(s[CrcAt..], Crc32C.Of(s[..CrcAt]));
        return bytes;
    }

    /// <summary>Reads a header; null when these 256 bytes are not one, or are damaged.</summary>
    public static SegmentHeader? TryDecode(ReadOnlySpan<byte> s)
    {
        if (s.Length < ByteCount || !s.StartsWith(Magic))
            return null;
        if (BinaryPrimitives.ReadUInt32LittleEndian(s[CrcAt..]) != Crc32C.Of(s[..CrcAt]))
            return null;
        ReadOnlySpan<byte> writer = s.Slice(176, WriterBytes);
        int end = writer.IndexOf((byte)0);
        var header = new SegmentHeader
        {
            Version = BinaryPrimitives.ReadInt32LittleEndian(s[8..]),
            Reason = (SegmentReason)BinaryPrimitives.ReadInt32LittleEndian(s[12..]),
            Number = BinaryPrimitives.ReadInt64LittleEndian(s[16..]),
            PredecessorNumber = BinaryPrimitives.ReadInt64LittleEndian(s[32..]),
            Predecessor = new(BinaryPrimitives.ReadInt64LittleEndian(s[40..]), ChainHash.Read(s[48..])),
            CreatedUnixMicroseconds = BinaryPrimitives.ReadInt64LittleEndian(s[80..]),
            BootId = new Guid(s.Slice(88, 16), bigEndian: true),
            WriterInstance = new Guid(s.Slice(104, 16), bigEndian: true),
            Protection = BinaryPrimitives.ReadInt32LittleEndian(s[120..]),
            DataKeyId = new Guid(s.Slice(124, 16), bigEndian: true),
            AnnouncesClear = BinaryPrimitives.ReadInt32LittleEndian(s[140..]) == 1,
            PredecessorForm = BinaryPrimitives.ReadInt32LittleEndian(s[144..]) switch
            {
                1 => StoredForm.Clear,
                2 => StoredForm.Encrypted,
                _ => StoredForm.NotTold,
            },
            Writer = Encoding.UTF8.GetString(end < 0 ? writer : writer[..end]),
        };
        // Two fields say the same; where they do not, one was changed and the checksum mended. (Of a newer format nobody knows that.)
        bool agrees = BinaryPrimitives.ReadInt64LittleEndian(s[24..]) == header.FirstSequence;
        return agrees || header.Version != CurrentVersion ? header : null;
    }
}
