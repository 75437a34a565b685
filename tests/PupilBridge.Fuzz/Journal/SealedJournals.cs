using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// Encrypted journals with the files of their keys, sealed here from docs/journal.md alone (AES-256-GCM, and AES Key Wrap with Padding, RFC 5649,
/// of the base library) out of journals in the clear: what the product reads was not written by it, and each run has the same bytes.
/// </summary>
internal static class SealedJournals
{
    /// <summary>Where this bit is set in a file's number, it is the file of the segment's key.</summary>
    public const uint KeyFile = 0x8000_0000;

    private const int HeaderBytes = 256;
    private const int TagBytes = 16;
    private const int SecondCopyAt = 4096;
    private static readonly byte[] Secret = SHA256.HashData("the quay's master key"u8);
    private static readonly MasterKeyId Name = new(0x5EA1_ED00_0BAD_C0DE);

    /// <summary>Which master keys are at hand: the right one, another of that name, one of another name, none.</summary>
    public static IReadOnlyList<KeyRing?> Rings { get; } =
    [Ring(Name, Secret), Ring(Name, SHA256.HashData(Secret)), Ring(new(7), Secret), null];

    /// <summary>The record under the key that says that the journal goes on in the clear, as docs/journal.md writes it.</summary>
    public static byte[] Word { get; } =
        "kind=GoesOnInTheClear\nfile=\noffset=0\nbytes=0\nfirst=0\nlast=0\ntext=Switched off.\n"u8.ToArray();

    /// <summary>All of them; of the last two the last segment stands in the clear, and the one before it says so.</summary>
    public static IReadOnlyList<SealedJournal> All { get; } =
    [
        Seal(0, BaseJournals.All[1]),
        Seal(1, BaseJournals.All[2]),
        Seal(2, BaseJournals.All[3]),
        Seal(3, BaseJournals.All[1], inTheClearFrom: 2),
        Seal(4, BaseJournals.All[3], inTheClearFrom: 3),
    ];

    /// <summary>The data key of a segment.</summary>
    public static byte[] KeyOf(uint number) => SHA256.HashData([.. "a data key of segment "u8, (byte)number]);

    private static SealedJournal Seal(byte index, BaseJournal plain, uint inTheClearFrom = uint.MaxValue)
    {
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        List<(uint, byte[])> files = [];
        List<SealedRecord> records = [];
        var chain = new byte[32];
        foreach (var place in new Image(plain.Image, places).Segments)
        {
            var form = new Form(place.Number < inTheClearFrom, place.Number + 1 == inTheClearFrom);
            files.Add(
                (
                    place.Number,
                    Segment(plain.Image.AsSpan(place.Start, place.Length), place.Number, form, chain, records)
                )
            );
            if (form.IsEncrypted)
                files.Add((place.Number | KeyFile, KeyFileOf(place.Number)));
        }

        var head = new JournalPosition(records[^1].Sequence, ChainHash.Read(records[^1].ChainAfter));
        return new SealedJournal(Image.Of(index, files), head, records);
    }

    private static byte[] Segment(
        ReadOnlySpan<byte> plain,
        uint number,
        Form form,
        byte[] chain,
        List<SealedRecord> records
    )
    {
        var header = plain[..HeaderBytes].ToArray();
        if (number > 1)
            chain.CopyTo(header.AsSpan(48));
        header.AsSpan(140, 8).Clear();
        // It announces a segment in the clear, and follows on an encrypted one.
        (header[140], header[144]) = (1, (byte)(number > 1 ? 2 : 0));
        if (form.IsEncrypted)
        {
            header[120] = 1;
            DataKeyId(number).CopyTo(header.AsSpan(124));
        }

        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(252), ReferenceRecord.Checksum(header.AsSpan(0, 252)));
        SHA256.HashData(header, chain);
        List<byte> segment = [.. header];
        var at = HeaderBytes;
        for (; ReferenceRecord.IsSound(plain[at..], out var record); at += record.Bytes.Length)
        {
            const int cleanStop = 3;
            const int notice = 2;
            // The clean stop at the segment's end makes room for the word.
            var (kind, payload) =
                form.EndsInWord && record.Class == cleanStop
                    ? (notice, Word)
                    : (record.Class, record.Payload.ToArray());
            var stored = form.IsEncrypted
                ? Record(record, kind, payload, number, chain)
                : ClearRecord(record.Bytes, chain);
            SHA256.HashData(stored, chain);
            segment.AddRange(stored);
            records.Add(new(number, record.Sequence, kind, payload, [.. chain], form.IsEncrypted));
        }

        segment.AddRange(plain[at..]);
        return [.. segment];
    }

    private static byte[] ClearRecord(ReadOnlySpan<byte> plain, ReadOnlySpan<byte> chain)
    {
        var record = plain.ToArray();
        chain.CopyTo(record.AsSpan(24));
        BinaryPrimitives.WriteUInt32LittleEndian(
            record.AsSpan(record.Length - 4),
            ReferenceRecord.Checksum(record.AsSpan(0, record.Length - 4))
        );
        return record;
    }

    private static byte[] Record(ReferenceRecord plain, int kind, byte[] content, uint number, ReadOnlySpan<byte> chain)
    {
        const int BeforePayload = 56;
        var record = new byte[BeforePayload + content.Length + TagBytes + 4];
        plain.Bytes[..BeforePayload].CopyTo(record);
        BinaryPrimitives.WriteInt32LittleEndian(record, content.Length + TagBytes);
        BinaryPrimitives.WriteInt32LittleEndian(record.AsSpan(4), kind);
        chain.CopyTo(record.AsSpan(24));
        using var gcm = new AesGcm(KeyOf(number), TagBytes);
        var nonce = new byte[12];
        BinaryPrimitives.WriteInt64LittleEndian(nonce.AsSpan(4), plain.Sequence);
        var payload = record.AsSpan(BeforePayload, content.Length);
        gcm.Encrypt(
            nonce,
            content,
            payload,
            record.AsSpan(BeforePayload + payload.Length, TagBytes),
            record.AsSpan(0, BeforePayload)
        );
        BinaryPrimitives.WriteUInt32LittleEndian(
            record.AsSpan(record.Length - 4),
            ReferenceRecord.Checksum(record.AsSpan(0, record.Length - 4))
        );
        return record;
    }

    private static byte[] KeyFileOf(uint number)
    {
        using var aes = Aes.Create();
        aes.SetKey(Secret);
        var wrapped = aes.EncryptKeyWrapPadded(KeyOf(number));
        var copy = new byte[36 + 9 + wrapped.Length + 4];
        "PBSEGKEY"u8.CopyTo(copy);
        copy[8] = 1;
        DataKeyId(number).CopyTo(copy.AsSpan(16));
        BinaryPrimitives.WriteInt32LittleEndian(copy.AsSpan(32), 9 + wrapped.Length);
        copy[36] = 1;
        BinaryPrimitives.WriteUInt64BigEndian(copy.AsSpan(37), Name.Value);
        wrapped.CopyTo(copy.AsSpan(45));
        BinaryPrimitives.WriteUInt32LittleEndian(
            copy.AsSpan(copy.Length - 4),
            ReferenceRecord.Checksum(copy.AsSpan(0, copy.Length - 4))
        );
        return [.. copy, .. new byte[SecondCopyAt - copy.Length], .. copy];
    }

    private static byte[] DataKeyId(uint number) => SHA256.HashData([.. "an id of segment "u8, (byte)number])[..16];

    private static KeyRing Ring(MasterKeyId id, byte[] secret) =>
        new(id, [new MasterKey(id, secret, new DateTimeOffset(2026, 3, 2, 9, 0, 0, TimeSpan.Zero))]);
}

/// <summary>An encrypted journal as it was sealed.</summary>
/// <param name="Image">Its segments and the files of their keys.</param>
/// <param name="Head">Its end.</param>
/// <param name="Records">What stands in it.</param>
internal sealed record SealedJournal(byte[] Image, JournalPosition Head, IReadOnlyList<SealedRecord> Records);

/// <summary>A record before it was sealed.</summary>
/// <param name="Segment">In which segment it stands.</param>
/// <param name="Sequence">Its sequence.</param>
/// <param name="Class">Its class.</param>
/// <param name="Payload">Its content.</param>
/// <param name="ChainAfter">The chain behind it.</param>
/// <param name="IsEncrypted">Whether it is encrypted; else it stands in the clear after the word that says so.</param>
internal sealed record SealedRecord(
    uint Segment,
    long Sequence,
    int Class,
    byte[] Payload,
    byte[] ChainAfter,
    bool IsEncrypted
);

/// <summary>How a segment is made.</summary>
/// <param name="IsEncrypted">Whether its records are encrypted.</param>
/// <param name="EndsInWord">Whether its last record says that the journal goes on in the clear.</param>
internal readonly record struct Form(bool IsEncrypted, bool EndsInWord);
