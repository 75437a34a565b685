using System.Buffers.Binary;
using System.IO.Hashing;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>
/// A page of a run of entry ids: XxHash3 of all that follows (8 bytes), how many places are taken (4), zeros (4), and up to 170
/// places of 24 bytes: the id and the journal's sequence. All numbers are big-endian, so that bytes sort as ids do.
/// </summary>
internal static class RunPage
{
    public const int ByteCount = 4096;
    public const int Places = 170;
    private const int HeadBytes = 16;
    private const int PlaceBytes = 24;

    public static int CountIn(ReadOnlySpan<byte> page) => BinaryPrimitives.ReadInt32BigEndian(page[8..]);

    public static RecordedId At(ReadOnlySpan<byte> page, int place)
    {
        var bytes = page.Slice(HeadBytes + (place * PlaceBytes), PlaceBytes);
        return new(
            new EntryId(BinaryPrimitives.ReadUInt128BigEndian(bytes)),
            new JournalSequence(BinaryPrimitives.ReadInt64BigEndian(bytes[16..]))
        );
    }

    public static void Set(Span<byte> page, int place, RecordedId recorded)
    {
        var bytes = page.Slice(HeadBytes + (place * PlaceBytes), PlaceBytes);
        BinaryPrimitives.WriteUInt128BigEndian(bytes, recorded.Id.Value);
        BinaryPrimitives.WriteInt64BigEndian(bytes[16..], recorded.Place.Value);
    }

    /// <summary>Closes a page whose places are set; the rest becomes zeros.</summary>
    public static void Seal(Span<byte> page, int count)
    {
        page[(HeadBytes + (count * PlaceBytes))..].Clear();
        BinaryPrimitives.WriteInt64BigEndian(page[8..], (long)count << 32);
        BinaryPrimitives.WriteUInt64BigEndian(page, XxHash3.HashToUInt64(page[8..]));
    }

    /// <summary>Whether a page is as it was sealed.</summary>
    public static bool IsSound(ReadOnlySpan<byte> page) =>
        page.Length == ByteCount
        && CountIn(page) is > 0 and <= Places
        && BinaryPrimitives.ReadUInt64BigEndian(page) == XxHash3.HashToUInt64(page[8..]);
}

/// <summary>An entry's id and its place in the journal.</summary>
internal readonly record struct RecordedId(EntryId Id, JournalSequence Place) : IComparable<RecordedId>
{
    public int CompareTo(RecordedId other)
    {
        var byId = Id.Value.CompareTo(other.Id.Value);
        return byId != 0 ? byId : Place.Value.CompareTo(other.Place.Value);
    }
}

/// <summary>A file of the entry index is not as it was written.</summary>
internal sealed class IndexDamagedException(string message) : IOException(message);
