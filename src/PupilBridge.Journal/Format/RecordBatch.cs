using System.Buffers.Binary;

namespace PupilBridge.Journal;

/// <summary>
/// Records laid out one after another in one buffer, as they will stand on disk. Adding copies the payload into place
/// (the only copy); sealing fills in what is known only at the commit: sequence, chain and checksum. A batch can be sealed
/// again for another segment, which is how a failed commit is retried. For an encrypted segment the sealed records stand in a
/// buffer beside, so that another segment's key finds the payloads as they were given.
/// </summary>
internal sealed class RecordBatch
{
    // A buffer that one burst made large is given back: a quiet clinic should not keep it.
    private const int KeptBytes = 1 << 20;
    private byte[] _bytes = new byte[16 << 10];
    private byte[] _encrypted = [];
    private int? _encryptedCount;

    public int Count { get; private set; }

    public int ByteCount { get; private set; }

    /// <summary>The sequence of the first record, as sealed last.</summary>
    public long FirstSequence { get; private set; }

    /// <summary>The records as they were sealed last.</summary>
    public ReadOnlySpan<byte> Bytes =>
        _encryptedCount is int count ? _encrypted.AsSpan(0, count) : _bytes.AsSpan(0, ByteCount);

    /// <summary>How many bytes the records take in a segment that is encrypted or not.</summary>
    public int StoredBytes(bool encrypted) =>
        encrypted ? checked(ByteCount + (Count * RecordLayout.TagBytes)) : ByteCount;

    public void Add(RecordClass recordClass, ReadOnlySpan<byte> payload)
    {
        int length = RecordLayout.OverheadBytes + payload.Length;
        if (_bytes.Length - ByteCount < length)
            Array.Resize(
                ref _bytes,
                Math.Max(checked(ByteCount + length), Math.Min(_bytes.Length * 2, int.MaxValue / 2))
            );
        Span<byte> record = _bytes.AsSpan(ByteCount, length);
        BinaryPrimitives.WriteUInt32LittleEndian(record, (uint)payload.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(record[RecordLayout.ClassAt..], (uint)recordClass);
        payload.CopyTo(record[RecordLayout.PayloadAt..]);
        ByteCount += length;
        Count++;
    }

    /// <summary>
    /// Numbers, encrypts (where there is a cipher) and chains the records after <paramref name="before"/>; returns the position
    /// after the last.
    /// </summary>
    public JournalPosition Seal(JournalPosition before, SegmentCipher? cipher = null)
    {
        JournalPosition position = before;
        FirstSequence = before.Sequence + 1;
        _encryptedCount = null;
        if (cipher is not null)
            return Encrypt(before, cipher);
        for (int at = 0; at < ByteCount; )
        {
            int length = RecordLayout.RecordBytes(_bytes.AsSpan(at));
            position = SealRecord(_bytes.AsSpan(at, length), before.Sequence, position);
            at += length;
        }
        return position;
    }

    public void Clear()
    {
        Count = 0;
        ByteCount = 0;
        _encryptedCount = null;
        if (_encrypted.Length > KeptBytes)
            _encrypted = [];
        if (_bytes.Length > KeptBytes)
            _bytes = new byte[16 << 10];
    }

    private JournalPosition Encrypt(JournalPosition before, SegmentCipher cipher)
    {
        JournalPosition position = before;
        int needed = StoredBytes(encrypted: true);
        if (_encrypted.Length < needed)
            _encrypted = new byte[Math.Max(needed, _bytes.Length)];
        int to = 0;
        for (int at = 0; at < ByteCount; )
        {
            int length = RecordLayout.RecordBytes(_bytes.AsSpan(at));
            ReadOnlySpan<byte> plain = _bytes.AsSpan(at, length);
            Span<byte> record = _encrypted.AsSpan(to, length + RecordLayout.TagBytes);
            plain[..RecordLayout.PayloadAt].CopyTo(record);
            BinaryPrimitives.WriteInt32LittleEndian(record, record.Length - RecordLayout.OverheadBytes);
            position = SealRecord(record, before.Sequence, position, cipher, RecordLayout.PayloadOf(plain));
            at += length;
            to += record.Length;
        }
        _encryptedCount = to;
        return position;
    }

    private static JournalPosition SealRecord(
        Span<byte> record,
        long durableBefore,
        JournalPosition previous,
        SegmentCipher? cipher = null,
        ReadOnlySpan<byte> plain = default
    )
    {
        long sequence = previous.Sequence + 1;
        BinaryPrimitives.WriteInt64LittleEndian(record[RecordLayout.SequenceAt..], sequence);
        BinaryPrimitives.WriteInt64LittleEndian(record[RecordLayout.DurableBeforeAt..], durableBefore);
        previous.Hash.Write(record[RecordLayout.PreviousAt..]);
        cipher?.Seal(record, plain);
        Span<byte> crc = record[^RecordLayout.CrcBytes..];
        BinaryPrimitives.WriteUInt32LittleEndian(crc, Crc32C.Of(record[..^RecordLayout.CrcBytes]));
        return new JournalPosition(sequence, ChainHash.Of(record));
    }
}
