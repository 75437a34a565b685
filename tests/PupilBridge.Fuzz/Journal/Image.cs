using System.Buffers.Binary;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// The segments of a journal in one run of bytes, as an input holds them: the number of the journal from which it was made, how many
/// segments there are, and for each its number (4 bytes), its length (4 bytes) and its bytes.
/// </summary>
internal readonly ref struct Image
{
    public const int HeadBytes = 2;
    public const int SegmentHeadBytes = 8;
    private const int MostSegments = 12;

    /// <summary>Takes bytes apart; what does not fit is left out, so that any bytes are an image.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="places">Room for the places of the segments, 12 of them.</param>
    public Image(ReadOnlySpan<byte> bytes, Span<SegmentPlace> places)
    {
        var count = 0;
        for (var at = HeadBytes; at + SegmentHeadBytes <= bytes.Length && count < MostSegments; count++)
        {
            var number = BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]);
            var wanted = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(at + 4)..]);
            var length = (int)Math.Min(wanted, (uint)(bytes.Length - at - SegmentHeadBytes));
            places[count] = new SegmentPlace(number, at + SegmentHeadBytes, length);
            at += SegmentHeadBytes + length;
        }

        Segments = places[..count];
        Base = bytes.IsEmpty ? (byte)0 : bytes[0];
    }

    /// <summary>Where the segments stand.</summary>
    public ReadOnlySpan<SegmentPlace> Segments { get; }

    /// <summary>From which journal it was made.</summary>
    public byte Base { get; }

    /// <summary>Puts segments together.</summary>
    public static byte[] Of(byte from, IEnumerable<(uint Number, byte[] Bytes)> segments)
    {
        List<byte> all = [from, 0];
        foreach (var (number, bytes) in segments)
        {
            var head = new byte[SegmentHeadBytes];
            BinaryPrimitives.WriteUInt32LittleEndian(head, number);
            BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(4), (uint)bytes.Length);
            all.AddRange(head);
            all.AddRange(bytes);
        }

        return [.. all];
    }
}

/// <summary>One segment of an image.</summary>
/// <param name="Number">Its number, as in its file's name.</param>
/// <param name="Start">Where its bytes begin.</param>
/// <param name="Length">How many there are.</param>
internal readonly record struct SegmentPlace(uint Number, int Start, int Length);
