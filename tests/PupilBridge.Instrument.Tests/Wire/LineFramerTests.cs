using System.Buffers;
using System.Text;
using CsCheck;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

public class LineFramerTests
{
    [Fact]
    public void Every_prefix_of_a_line_needs_more_and_consumes_nothing() =>
        Gens
            .InstrumentLine.Select(l => Lines.Of(l))
            .Sample(line =>
            {
                for (var length = 0; length < line.Length; length++)
                    Assert.Equal(
                        new Frame(FrameKind.NeedMore, 0, 0, false, false),
                        LineFramer.Next(line.AsSpan(0, length), false)
                    );
                var whole = LineFramer.Next(line, false);
                Assert.Equal(new Frame(FrameKind.Line, line.Length - 1, line.Length, false, false), whole);
            });

    [Fact]
    public void A_read_split_at_any_place_gives_the_same_lines()
    {
        var stream = Encoding.ASCII.GetBytes("first*00000000\nsecond*11111111\r\n\nthird*22222222\n");
        for (var split = 0; split <= stream.Length; split++)
        {
            Assert.Equal(
                ["first*00000000", "second*11111111", "third*22222222"],
                FramedIn([stream[..split], stream[split..]]).Lines
            );
        }
    }

    [Fact]
    public void Any_reads_give_the_same_lines_and_the_same_count_of_over_long_runs() =>
        Gen.Select(Gens.Any((byte)'\n', (byte)'\r', (byte)'a', (byte)'*').Array[0, 900], Gen.Int[1, 400].Array[1, 9])
            .Sample(
                (bytes, sizes) =>
                {
                    var whole = FramedIn([bytes]);
                    var pieces = FramedIn(Cut(bytes, sizes));
                    Assert.Equal(whole.Lines, pieces.Lines);
                    Assert.Equal(whole.TooLong, pieces.TooLong);
                }
            );

    [Fact]
    public void A_chain_of_buffers_gives_the_same_answers_as_one_buffer() =>
        Gen.Select(Gens.Any((byte)'\n', (byte)'b').Array[0, 500], Gen.Int[1, 300].Array[1, 5], Gen.Bool)
            .Sample(
                (bytes, sizes, resyncing) =>
                {
                    var chained = Chain(Cut(bytes, sizes));
                    var span = LineFramer.Next(bytes, resyncing);
                    var sequence = LineFramer.Next(chained, resyncing);
                    Assert.Equal(span.Kind, sequence.Kind);
                    // While it resyncs it may take one buffer at a time.
                    if (!resyncing)
                        Assert.Equal(span, sequence);
                    Assert.True(sequence.Consumed <= bytes.Length);
                }
            );

    [Fact]
    public void An_over_long_run_is_counted_once_and_dropped_up_to_the_next_line_end()
    {
        var noise = new string('x', 1000);
        var framed = FramedIn([Encoding.ASCII.GetBytes(noise + "\ngood*00000000\n")]);
        Assert.Equal(["good*00000000"], framed.Lines);
        Assert.Equal(1, framed.TooLong);
    }

    [Theory]
    [InlineData(119, "\n", true)]
    [InlineData(119, "\r\n", true)]
    [InlineData(120, "\n", false)]
    [InlineData(120, "\r\n", false)]
    public void The_limit_is_119_bytes_of_content(int length, string end, bool isLine)
    {
        var framed = FramedIn([Encoding.ASCII.GetBytes(new string('y', length) + end)]);
        Assert.Equal(isLine ? 1 : 0, framed.Lines.Count);
        Assert.Equal(isLine ? 0 : 1, framed.TooLong);
    }

    [Fact]
    public void It_never_holds_more_than_one_line_at_a_time()
    {
        var endless = new byte[100_000];
        Array.Fill(endless, (byte)'z');
        var resyncing = false;
        var held = 0;
        for (var at = 0; at < endless.Length; at++)
        {
            held++;
            var frame = LineFramer.Next(endless.AsSpan(at - held + 1, held), resyncing);
            (held, resyncing) = (held - frame.Consumed, frame.Resyncing);
            Assert.InRange(held, 0, WireLimits.MaxLineBytes);
        }
    }

    [Fact]
    public void A_stream_taken_up_in_the_middle_of_a_line_begins_with_the_next_one()
    {
        var frame = LineFramer.Next("ail of a line\nnext*00000000\n"u8, resyncing: true);
        Assert.Equal(new Frame(FrameKind.Discard, 0, 14, false, false), frame);
    }

    private static (List<string> Lines, int TooLong) FramedIn(IEnumerable<byte[]> reads)
    {
        var (lines, tooLong, resyncing) = (new List<string>(), 0, false);
        var pending = Array.Empty<byte>();
        foreach (var read in reads)
        {
            pending = [.. pending, .. read];
            while (LineFramer.Next(pending, resyncing) is { Kind: not FrameKind.NeedMore } frame)
            {
                if (frame.Kind == FrameKind.Line)
                    lines.Add(Encoding.ASCII.GetString(pending, 0, frame.Length));
                tooLong += frame.TooLong ? 1 : 0;
                resyncing = frame.Resyncing;
                pending = pending[frame.Consumed..];
            }
        }

        return (lines, tooLong);
    }

    private static List<byte[]> Cut(byte[] bytes, int[] sizes)
    {
        var pieces = new List<byte[]>();
        for (var (at, turn) = (0, 0); at < bytes.Length; turn++)
        {
            var length = Math.Min(sizes[turn % sizes.Length], bytes.Length - at);
            pieces.Add(bytes[at..(at + length)]);
            at += length;
        }

        return pieces;
    }

    private static ReadOnlySequence<byte> Chain(List<byte[]> pieces)
    {
        if (pieces.Count == 0)
            return ReadOnlySequence<byte>.Empty;
        var first = new Piece(pieces[0], 0);
        var last = pieces.Skip(1).Aggregate(first, (piece, next) => piece.Then(next));
        return new ReadOnlySequence<byte>(first, 0, last, last.Memory.Length);
    }

    private sealed class Piece : ReadOnlySequenceSegment<byte>
    {
        internal Piece(byte[] bytes, long index) => (Memory, RunningIndex) = (bytes, index);

        internal Piece Then(byte[] bytes)
        {
            var next = new Piece(bytes, RunningIndex + Memory.Length);
            Next = next;
            return next;
        }
    }
}
