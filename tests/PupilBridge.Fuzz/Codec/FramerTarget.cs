using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Codec;

/// <summary>
/// A stream of bytes through the framer, cut into reads as the input itself says (its first eight bytes are their seed): the lines are
/// those of the reference, however the reads fall, in one buffer or in a chain of them.
/// </summary>
/// <param name="framer">The framer that is tried; a test puts a spoilt one here.</param>
internal sealed class FramerTarget(Framer? framer = null) : IFuzzTarget
{
    private const int SeedBytes = 8;
    private readonly Framer next = framer ?? LineFramer.Next;
    private readonly List<(int Start, int Length)> expected = [];
    private readonly List<(int Start, int Length)> found = [];
    private readonly byte[] copy = new byte[4096];

    public IReadOnlyList<byte[]> Seeds { get; } = [.. Streams(), .. FailedBefore.Of("framer")];

    public int MaxBytes => 2048;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        BitConverter.TryWriteBytes(into, dice.Next());
        if (from.Length < SeedBytes || other.Length < SeedBytes)
            return SeedBytes;
        return SeedBytes + StreamMutator.Change(from[SeedBytes..], other[SeedBytes..], into[SeedBytes..], ref dice);
    }

    public ulong Run(ReadOnlySpan<byte> input)
    {
        if (input.Length < SeedBytes)
            return 0;
        var bytes = input[SeedBytes..];
        ReferenceFramer.Cut(bytes, expected);
        Units += Math.Max(1, expected.Count);
        Read(bytes, BitConverter.ToUInt64(input));
        Compare(bytes, "read in pieces");
        Chained(bytes, BitConverter.ToUInt64(input));
        Compare(bytes, "in a chain of buffers");
        return Behaviour();
    }

    /// <summary>As a port does it: what is left of the last read stands in front of the next.</summary>
    private void Read(ReadOnlySpan<byte> bytes, ulong seed)
    {
        found.Clear();
        var dice = new Dice(seed);
        var most = dice.Any<int>([1, 2, 7, 64, 121, 500, 4096]);
        var (start, end, resyncing) = (0, 0, false);
        while (end < bytes.Length)
        {
            end = Math.Min(bytes.Length, end + 1 + dice.Below(most));
            for (var steps = 0; ; steps++)
            {
                if (steps > end)
                    throw new Finding("The framer does not come to an end", Readable.Of(bytes));
                var frame = next(bytes[start..end], resyncing);
                if (frame.Kind == FrameKind.NeedMore)
                    break;
                Note(frame, start, end);
                resyncing = frame.Resyncing;
                start += frame.Consumed;
            }
        }
    }

    /// <summary>As a pipe does it: a chain of buffers, each line across as many of them as it happens to lie in.</summary>
    private void Chained(ReadOnlySpan<byte> bytes, ulong seed)
    {
        found.Clear();
        bytes.CopyTo(copy);
        var rest = Piece.Chain(copy.AsMemory(0, bytes.Length), new Dice(~seed));
        var (start, resyncing) = (0, false);
        while (LineFramer.Next(rest, resyncing) is var frame && frame.Kind != FrameKind.NeedMore)
        {
            Note(frame, start, bytes.Length);
            resyncing = frame.Resyncing;
            start += frame.Consumed;
            rest = rest.Slice(frame.Consumed);
        }
    }

    private void Note(Frame frame, int start, int end)
    {
        if (frame.Consumed < 1 || start + frame.Consumed > end || frame.Length > frame.Consumed)
            throw new Finding("The framer takes nothing, or more than there is", $"{frame} at {start} of {end}");
        if (frame.Kind == FrameKind.Line)
            found.Add((start, frame.Length));
        else if (frame.TooLong)
            found.Add((start, -1));
    }

    private void Compare(ReadOnlySpan<byte> bytes, string how)
    {
        if (!expected.SequenceEqual(found))
            throw new Finding(
                "The framer finds other lines than the reference",
                $"{how}: {string.Join(' ', found)} instead of {string.Join(' ', expected)} in {Readable.Of(bytes)}"
            );
    }

    private ulong Behaviour()
    {
        var signature = new Signature();
        signature.Bucket(expected.Count);
        signature.Bucket(expected.Count(line => line.Length < 0));
        signature.Bucket(expected.Count(line => line.Length > 117));
        return signature.Bits;
    }

    private static IEnumerable<byte[]> Streams()
    {
        byte[] all = [.. ProtocolPage.Lines.Take(12).SelectMany(line => line.Append((byte)'\n'))];
        yield return [.. new byte[SeedBytes], .. all];
        foreach (var length in new[] { 0, 1, 118, 119, 120, 121, 122, 240, 241 })
        {
            yield return
            [
                .. new byte[SeedBytes],
                .. Enumerable.Repeat((byte)'A', length),
                (byte)'\n',
                (byte)'B',
                (byte)'\n',
            ];
            yield return [.. new byte[SeedBytes], .. Enumerable.Repeat((byte)'A', length), 13, 10, (byte)'B', 10];
        }
    }
}

/// <summary>What stands at the front of some bytes? A seam, so that tests can prove that a spoilt framer is found.</summary>
internal delegate Frame Framer(ReadOnlySpan<byte> bytes, bool resyncing);
