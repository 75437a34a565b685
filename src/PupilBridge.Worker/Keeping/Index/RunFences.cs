using System.Buffers.Binary;
using System.IO.Hashing;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>
/// The first id of each so-many-th page of a run: what of a run is held in memory, never more than 1,024 ids (16 KiB). It stands
/// behind the run's last page: magic, number of ids in the run, the fences, XxHash3 of all before.
/// </summary>
internal sealed class RunFences
{
    private const int Most = 1024;
    private const ulong Magic = 0x5042_4944_5255_4E31; // "PBIDRUN1"
    private readonly UInt128[] firsts;

    private RunFences(long count, UInt128[] firsts) => (Count, this.firsts) = (count, firsts);

    /// <summary>How many ids the run has.</summary>
    public long Count { get; }

    public long Pages => PagesOf(Count);

    public static long PagesOf(long count) => (count + RunPage.Places - 1) / RunPage.Places;

    /// <summary>Every how many pages there is a fence.</summary>
    public static long StrideOf(long count) => Math.Max(1, (PagesOf(count) + Most - 1) / Most);

    /// <summary>The bytes of the fences of a run of so many ids.</summary>
    public static int BytesOf(long count) => 24 + (16 * FencesOf(count));

    public static byte[] Encode(long count, IReadOnlyList<EntryId> firsts)
    {
        var bytes = new byte[BytesOf(count)];
        BinaryPrimitives.WriteUInt64BigEndian(bytes, Magic);
        BinaryPrimitives.WriteInt64BigEndian(bytes.AsSpan(8), count);
        for (var i = 0; i < firsts.Count; i++)
            BinaryPrimitives.WriteUInt128BigEndian(bytes.AsSpan(16 + (16 * i)), firsts[i].Value);
        BinaryPrimitives.WriteUInt64BigEndian(
            bytes.AsSpan(bytes.Length - 8),
            XxHash3.HashToUInt64(bytes.AsSpan()[..^8])
        );
        return bytes;
    }

    /// <summary>Reads fences.</summary>
    /// <returns>Null where the bytes are not those of a run of so many ids.</returns>
    public static RunFences? TryDecode(ReadOnlySpan<byte> bytes, long count)
    {
        if (
            bytes.Length != BytesOf(count)
            || BinaryPrimitives.ReadUInt64BigEndian(bytes) != Magic
            || BinaryPrimitives.ReadInt64BigEndian(bytes[8..]) != count
            || BinaryPrimitives.ReadUInt64BigEndian(bytes[^8..]) != XxHash3.HashToUInt64(bytes[..^8])
        )
            return null;
        var firsts = new UInt128[FencesOf(count)];
        for (var i = 0; i < firsts.Length; i++)
            firsts[i] = BinaryPrimitives.ReadUInt128BigEndian(bytes[(16 + (16 * i))..]);
        return new RunFences(count, firsts);
    }

    /// <summary>The pages among which an id stands if the run has it.</summary>
    /// <returns>The first page, and the one behind the last; none where the id comes before all.</returns>
    public (long From, long To) PagesFor(EntryId id)
    {
        var at = Array.BinarySearch(firsts, id.Value);
        var fence = at >= 0 ? at : ~at - 1;
        var stride = StrideOf(Count);
        return fence < 0 ? (0, 0) : (fence * stride, Math.Min((fence + 1) * stride, Pages));
    }

    private static int FencesOf(long count) => (int)((PagesOf(count) + StrideOf(count) - 1) / StrideOf(count));
}
