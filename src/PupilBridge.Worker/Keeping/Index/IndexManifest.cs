using System.Buffers.Binary;
using System.IO.Hashing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>What the entry index consists of, at one place of the journal.</summary>
/// <param name="Position">The place: the last sequence that is in it, and the chain's value there.</param>
/// <param name="Runs">The runs of entry ids: number and how many ids.</param>
/// <param name="Events">The state of the instruments' events, as <see cref="EventIndex.Write"/> gave it.</param>
internal sealed record IndexManifest(
    JournalPosition Position,
    IReadOnlyList<(long Number, long Count)> Runs,
    ReadOnlyMemory<byte> Events
)
{
    private const ulong Magic = 0x5042_5845_444E_4931; // "PBXEDNI1"

    public static IndexManifest Empty { get; } = new(default, [], ReadOnlyMemory<byte>.Empty);

    public byte[] Encode()
    {
        var stream = new MemoryStream();
        var writer = new BinaryWriter(stream);
        Span<byte> hash = stackalloc byte[ChainHash.ByteCount];
        Position.Hash.Write(hash);
        writer.Write(Magic);
        writer.Write(Position.Sequence);
        writer.Write(hash);
        writer.Write(Runs.Count);
        foreach (var (number, count) in Runs)
        {
            writer.Write(number);
            writer.Write(count);
        }

        writer.Write(Events.Length);
        writer.Write(Events.Span);
        writer.Write(XxHash3.HashToUInt64(stream.ToArray()));
        return stream.ToArray();
    }

    /// <summary>Reads a manifest.</summary>
    /// <returns>Null where the bytes are none, or of another version.</returns>
    public static IndexManifest? TryDecode(byte[] bytes)
    {
        const int least = 8 + 8 + ChainHash.ByteCount + 4 + 4 + 8;
        var all = bytes.AsSpan();
        if (all.Length < least || BinaryPrimitives.ReadUInt64LittleEndian(all[^8..]) != XxHash3.HashToUInt64(all[..^8]))
            return null;
        var reader = new BinaryReader(new MemoryStream(bytes));
        if (reader.ReadUInt64() != Magic)
            return null;
        var sequence = reader.ReadInt64();
        var hash = ChainHash.Read(reader.ReadBytes(ChainHash.ByteCount));
        var runs = new (long, long)[reader.ReadInt32()];
        for (var i = 0; i < runs.Length; i++)
            runs[i] = (reader.ReadInt64(), reader.ReadInt64());
        return new IndexManifest(new(sequence, hash), runs, reader.ReadBytes(reader.ReadInt32()));
    }
}
