using System.Buffers.Binary;

namespace PupilBridge.Journal;

/// <summary>
/// Records laid out one after another in one buffer, as they will stand on disk. Adding copies the payload into place
/// (the only copy); sealing fills in what is known only at the commit: sequence, chain and checksum. A batch can be sealed
/// again for another segment, which is how a failed commit is retried.
/// </summary>
internal sealed class RecordBatch
{
    // A buffer that one burst made large is given back: a quiet clinic should not keep it.
    private const int KeptBytes = 1 << 20;
    private byte[] _bytes = new byte[16 << 10];

    public int Count { get; private set; }

    public int ByteCount { get; private set; }

    /// <summary>The sequence of the first record, as sealed last.</summary>
    public long FirstSequence { get; private set; }

    public ReadOnlySpan<byte> Bytes => _bytes.AsSpan(0, ByteCount);

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

    /// <summary>Numbers and chains the records after <paramref name="before"/>; returns the position after the last.</summary>
    public JournalPosition Seal(JournalPosition before)
    {
        JournalPosition position = before;
        FirstSequence = before.Sequence + 1;
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
        if (_bytes.Length > KeptBytes)
            _bytes = new byte[16 << 10];
    }

    private static JournalPosition SealRecord(Span<byte> record, long durableBefore, JournalPosition previous)
    {
        long sequence = previous.Sequence + 1;
        BinaryPrimitives.WriteInt64LittleEndian(record[RecordLayout.SequenceAt..], sequence);
        BinaryPrimitives.WriteInt64LittleEndian(record[RecordLayout.DurableBeforeAt..], durableBefore);
        previous.Hash.Write(record[RecordLayout.PreviousAt..]);
        Span<byte> crc = record[^RecordLayout.CrcBytes..];
        BinaryPrimitives.WriteUInt32LittleEndian(crc, Crc32C.Of(record[..^RecordLayout.CrcBytes]));
        return new JournalPosition(sequence, ChainHash.Of(record));
    }
}
