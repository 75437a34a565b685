using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Voyage.Model;

/// <summary>One record as it lies in a segment.</summary>
/// <param name="Sequence">Its sequence.</param>
/// <param name="Class">1 entry, 2 notice, 3 clean stop.</param>
/// <param name="DurableBefore">The last sequence that was durable when it was written.</param>
/// <param name="File">The segment's file.</param>
/// <param name="Offset">Where it begins.</param>
/// <param name="Length">All its bytes.</param>
/// <param name="Payload">Its payload, opened where it is encrypted and keys are given.</param>
/// <param name="IsEncrypted">Whether it is encrypted on the disk.</param>
internal sealed record CopiedRecord(
    long Sequence,
    int Class,
    long DurableBefore,
    string File,
    int Offset,
    int Length,
    ReadOnlyMemory<byte> Payload,
    bool IsEncrypted
);

/// <summary>
/// Reads a journal's files from docs/journal.md alone, with nothing of the product: checksums, sequences and chain from the first
/// record to the last, in whichever segments make up the journal. It must be whole: any fault ends in a problem.
/// </summary>
internal sealed class JournalCopy
{
    private const int HeaderBytes = 256;
    private const int RecordHead = 56;
    private readonly List<CopiedRecord> records = [];
    private readonly List<string> problems = [];

    private readonly SegmentOpening? opening;
    private bool mayBeClear = true;

    private JournalCopy(SegmentOpening? opening) => this.opening = opening;

    public IReadOnlyList<CopiedRecord> Records => records;

    public IReadOnlyList<string> Problems => problems;

    /// <summary>Reads it.</summary>
    /// <param name="files">The segments' bytes by file name, nothing else.</param>
    /// <param name="opening">Opens what is encrypted; null to leave it as it is.</param>
    public static JournalCopy Read(IReadOnlyDictionary<string, byte[]> files, SegmentOpening? opening = null)
    {
        var copy = new JournalCopy(opening);
        var byNumber = files
            .Where(f => f.Value.Length >= HeaderBytes)
            .ToDictionary(f => BinaryPrimitives.ReadInt64LittleEndian(f.Value.AsSpan(16)), f => f);
        if (byNumber.Count == 0)
            return copy;
        var chain = new Stack<(KeyValuePair<string, byte[]> File, long CountsUpTo)>();
        var (next, countsUpTo) = (byNumber.Keys.Max(), long.MaxValue);
        while (next != 0)
        {
            if (!byNumber.TryGetValue(next, out var file))
            {
                copy.problems.Add($"segment {next} is not there");
                break;
            }

            chain.Push((file, countsUpTo));
            countsUpTo = BinaryPrimitives.ReadInt64LittleEndian(file.Value.AsSpan(40));
            next = BinaryPrimitives.ReadInt64LittleEndian(file.Value.AsSpan(32));
        }

        var (sequence, hash) = (0L, new byte[32]);
        foreach (var (file, upTo) in chain)
            (sequence, hash) = copy.ReadSegment(file.Key, file.Value, upTo, sequence, hash);
        return copy;
    }

    private (long Sequence, byte[] Hash) ReadSegment(string name, byte[] bytes, long upTo, long sequence, byte[] hash)
    {
        var header = bytes.AsSpan(0, HeaderBytes);
        Check(Encoding.ASCII.GetString(header[..8]) == "PBJOURNL", name, 0, "it does not begin like a segment");
        Check(
            Crc(header[..252]) == BinaryPrimitives.ReadUInt32LittleEndian(header[252..]),
            name,
            0,
            "the header's checksum"
        );
        Check(
            BinaryPrimitives.ReadInt64LittleEndian(header[40..]) == sequence,
            name,
            40,
            $"it does not follow from {sequence}"
        );
        Check(header.Slice(48, 32).SequenceEqual(hash), name, 48, "the chain before it");
        hash = SHA256.HashData(header);
        var isEncrypted = SegmentOpening.IsEncrypted(header);
        Check(
            isEncrypted || opening is null || mayBeClear,
            name,
            120,
            "it stands in the clear, and the last encrypted record does not say that the journal goes on so"
        );
        using var key = isEncrypted ? opening?.KeyOf(name, header) : null;
        Check(!isEncrypted || opening is null || key is not null, name, 124, "no key opens it");
        var at = HeaderBytes;
        while (sequence < upTo && at + 4 <= bytes.Length)
        {
            var length = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at));
            if (length == 0)
                break;
            var whole = RecordHead + length + 4;
            if (length is < 0 or > 65_536 || at + whole > bytes.Length)
            {
                Check(upTo == long.MaxValue, name, at, "a record that is cut off");
                break;
            }

            var record = bytes.AsSpan(at, whole);
            var sound = Crc(record[..^4]) == BinaryPrimitives.ReadUInt32LittleEndian(record[^4..]);
            // Bytes of an unfinished write may stand behind the last record of the last segment.
            if (!sound && upTo == long.MaxValue)
                break;
            Check(sound, name, at, $"the checksum of record {sequence + 1}");
            Check(
                BinaryPrimitives.ReadInt64LittleEndian(record[8..]) == sequence + 1,
                name,
                at,
                $"the sequence after {sequence}"
            );
            Check(record.Slice(24, 32).SequenceEqual(hash), name, at, $"the chain before record {sequence + 1}");
            hash = SHA256.HashData(record);
            sequence++;
            ReadOnlyMemory<byte> payload = bytes.AsMemory(at + RecordHead, length);
            if (key is not null)
            {
                payload = SegmentOpening.Open(key, record);
                Check(!payload.IsEmpty, name, at, $"record {sequence} does not open");
                mayBeClear = SegmentOpening.SaysThatClearFollows(record, payload.Span);
            }

            records.Add(
                new CopiedRecord(
                    sequence,
                    BinaryPrimitives.ReadInt32LittleEndian(record[4..]),
                    BinaryPrimitives.ReadInt64LittleEndian(record[16..]),
                    name,
                    at,
                    whole,
                    payload,
                    isEncrypted
                )
            );
            at += whole;
        }

        Check(upTo == long.MaxValue || sequence == upTo, name, at, $"records {sequence + 1} to {upTo} are not there");
        return (sequence, hash);
    }

    private void Check(bool isSo, string file, int offset, string what)
    {
        if (!isSo)
            problems.Add($"{file} at byte {offset}: {what}");
    }

    // CRC-32C, bit by bit table: written here anew from RFC 3720, 12.1.
    private static readonly uint[] Table = MakeTable();

    private static uint[] MakeTable()
    {
        var table = new uint[256];
        for (var i = 0u; i < 256; i++)
        {
            var value = i;
            for (var bit = 0; bit < 8; bit++)
                value = (value & 1) == 1 ? (value >> 1) ^ 0x82F63B78 : value >> 1;
            table[i] = value;
        }

        return table;
    }

    /// <summary>CRC-32C of some bytes.</summary>
    public static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var value = ~0u;
        foreach (var one in bytes)
            value = Table[(value ^ one) & 0xFF] ^ (value >> 8);
        return ~value;
    }
}
