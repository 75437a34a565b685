using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Tests.Verbs.Tampering;

/// <summary>
/// The bytes of a journal, cut into headers and records by what docs/journal.md says and by nothing of the product, for somebody who
/// wants to alter it and knows how.
/// </summary>
internal sealed class RawJournal
{
    private const int HeaderBytes = 256;
    private const int RecordOverhead = 60;

    private RawJournal(List<RawSegment> segments) => Segments = segments;

    public List<RawSegment> Segments { get; }

    public IEnumerable<(RawSegment Segment, int Index)> Places =>
        Segments.SelectMany(segment => Enumerable.Range(0, segment.Records.Count).Select(i => (segment, i)));

    public static RawJournal Read(string folder) =>
        new([
            .. Directory
                .GetFiles(folder, "segment-*.pbj")
                .Order(StringComparer.Ordinal)
                .Select(path => Cut(path, File.ReadAllBytes(path))),
        ]);

    /// <summary>Puts these segments, and no others, into the folder.</summary>
    public void Write(string folder)
    {
        foreach (var path in Directory.GetFiles(folder))
        {
            File.Delete(path);
        }

        foreach (var segment in Segments)
        {
            File.WriteAllBytes(segment.Path, [.. segment.Header, .. segment.Records.SelectMany(r => r)]);
        }
    }

    /// <summary>Gives every record from a place on, and every later header, the chain value of what is before it now: the journal written anew.</summary>
    public void ChainAnew()
    {
        var last = (Sequence: 0L, Chain: new byte[32]);
        foreach (var segment in Segments)
        {
            BinaryPrimitives.WriteInt64LittleEndian(segment.Header.AsSpan(40), last.Sequence);
            last.Chain.CopyTo(segment.Header.AsSpan(48));
            Seal(segment.Header);
            last.Chain = SHA256.HashData(segment.Header);
            foreach (var record in segment.Records)
            {
                BinaryPrimitives.WriteInt64LittleEndian(record.AsSpan(8), ++last.Sequence);
                last.Chain.CopyTo(record.AsSpan(24));
                Seal(record);
                last.Chain = SHA256.HashData(record);
            }
        }
    }

    /// <summary>Mends the checksum, which is the last four bytes of headers and records alike.</summary>
    public static void Seal(byte[] bytes) =>
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(^4..), Crc(bytes.AsSpan(..^4)));

    private static RawSegment Cut(string path, byte[] bytes)
    {
        var records = new List<byte[]>();
        for (var at = HeaderBytes; at + RecordOverhead < bytes.Length; )
        {
            var payload = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at));
            if (payload == 0)
            {
                break;
            }

            records.Add(bytes[at..(at + RecordOverhead + payload)]);
            at += RecordOverhead + payload;
        }

        return new RawSegment(path, bytes[..HeaderBytes], records);
    }

    /// <summary>CRC-32C (RFC 3720, 12.1), bit by bit.</summary>
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0x82F63B78;
            }
        }

        return ~crc;
    }
}

/// <summary>One segment's bytes.</summary>
internal sealed record RawSegment(string Path, byte[] Header, List<byte[]> Records);
