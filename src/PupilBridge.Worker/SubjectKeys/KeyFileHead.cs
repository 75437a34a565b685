using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Journal;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>
/// What stands at the head of the file of patients' keys, twice, so that a write that is cut off leaves the other one.
/// </summary>
/// <param name="Generation">One more with each writing; the higher one counts.</param>
/// <param name="SealedFrom">The first journal entry from which on everything is sealed.</param>
/// <param name="LastErasure">The last erasure of the journal that these keys have been through; 0 for none.</param>
/// <param name="IsWrapped">Whether the file's key is wrapped under a master key; otherwise it stands there as it is.</param>
/// <param name="FileKey">The key under which all keys in the slots are wrapped, wrapped or as it is.</param>
internal sealed record KeyFileHead(
    long Generation,
    long SealedFrom,
    long LastErasure,
    bool IsWrapped,
    ReadOnlyMemory<byte> FileKey
)
{
    /// <summary>The bytes of both copies.</summary>
    public const int Length = 2 * CopyLength;
    private const int CopyLength = 2048;
    private const int HashAt = CopyLength - 32;
    private const int KeyAt = 48;

    private static ReadOnlySpan<byte> Magic => "PBSUBKEY"u8;

    /// <summary>Reads the later sound copy.</summary>
    /// <returns>Null if none is sound.</returns>
    public static KeyFileHead? Read(IJournalFile file) => Copies(file).MaxBy(head => head.Generation);

    /// <summary>Reads the sound copies.</summary>
    public static IReadOnlyList<KeyFileHead> Copies(IJournalFile file)
    {
        var bytes = new byte[Length];
        var read = file.Read(bytes, 0);
        return
        [
            .. new[] { 0, CopyLength }
                .Where(at => at + CopyLength <= read)
                .Select(at => ReadCopy(bytes.AsSpan(at, CopyLength)))
                .OfType<KeyFileHead>(),
        ];
    }

    /// <summary>Writes it over the older copy and waits until it is on disk.</summary>
    public void Write(IJournalFile file)
    {
        file.Write(ToBytes(), Generation % 2 * CopyLength);
        file.Sync();
    }

    private byte[] ToBytes()
    {
        var bytes = new byte[CopyLength];
        Magic.CopyTo(bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(8), 1);
        bytes[12] = IsWrapped ? (byte)1 : (byte)0;
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(16), Generation);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(24), SealedFrom);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(32), LastErasure);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(40), FileKey.Length);
        FileKey.Span.CopyTo(bytes.AsSpan(KeyAt));
        SHA256.HashData(bytes.AsSpan(0, HashAt), bytes.AsSpan(HashAt));
        return bytes;
    }

    private static KeyFileHead? ReadCopy(ReadOnlySpan<byte> bytes)
    {
        if (!bytes.StartsWith(Magic) || !SHA256.HashData(bytes[..HashAt]).AsSpan().SequenceEqual(bytes[HashAt..]))
            return null;
        if (BinaryPrimitives.ReadInt32LittleEndian(bytes[8..]) is var version && version != 1)
        {
            throw new BridgeStartException(
                $"The file of patients' keys has format {version}, and this program reads format 1. Install the version that wrote it, or "
                    + "a later one; nothing was changed."
            );
        }

        return new KeyFileHead(
            BinaryPrimitives.ReadInt64LittleEndian(bytes[16..]),
            BinaryPrimitives.ReadInt64LittleEndian(bytes[24..]),
            BinaryPrimitives.ReadInt64LittleEndian(bytes[32..]),
            bytes[12] == 1,
            bytes.Slice(KeyAt, BinaryPrimitives.ReadInt32LittleEndian(bytes[40..])).ToArray()
        );
    }
}
