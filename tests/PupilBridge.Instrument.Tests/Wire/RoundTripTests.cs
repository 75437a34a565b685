using System.Buffers;
using CsCheck;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

public class RoundTripTests
{
    [Fact]
    public void What_an_instrument_says_is_what_is_read() =>
        Gens.InstrumentLine.Sample(line =>
        {
            var bytes = Lines.Of(line);
            Assert.True(InstrumentLineDecoder.TryDecode(bytes.AsSpan(0, bytes.Length - 1), out var read, out _));
            Assert.Equal(line.Kind, read.Kind);
            Assert.Equal(Content(line), Content(read));
            Assert.Equal(bytes, Lines.Of(read));
        });

    [Fact]
    public void What_a_host_says_is_what_is_read() =>
        Gens.HostLine.Sample(line =>
        {
            var bytes = Lines.Of(line);
            Assert.True(HostLineDecoder.TryDecode(bytes.AsSpan(0, bytes.Length - 1), out var read, out _));
            Assert.Equal(line, read);
        });

    [Fact]
    public void No_line_is_longer_than_the_limit() =>
        Gens.InstrumentLine.Sample(line => Assert.InRange(Lines.Of(line).Length, 1, WireLimits.MaxLineBytes));

    [Fact]
    public void The_longest_line_of_each_type_fits()
    {
        var boot = new BootNumber(ulong.MaxValue);
        var text = AsciiText.From(new string('w', 40));
        var most = WireLimits.MaxSequence;
        var identity = new IdentityHead(
            99,
            AsciiText.From(new string('s', 16)),
            AsciiText.From(new string('m', 16)),
            AsciiText.From(new string('f', 10)),
            boot,
            (InstrumentAbilities)511,
            32,
            most,
            new HostId(uint.MaxValue)
        );
        var fault = InstrumentEvent.FaultReported(new Tick(long.MaxValue), 9999, text.ToString());
        Assert.Equal(116, Lines.Of(new InstrumentLine(identity)).Length);
        Assert.Equal(118, Lines.Of(new InstrumentLine(fault with { Boot = boot, Sequence = most })).Length);
        Assert.Equal(
            83,
            Lines
                .Of(
                    new InstrumentLine(new CommandReply(new(uint.MaxValue), uint.MaxValue, CommandAnswer.Refused, text))
                )
                .Length
        );
        Assert.Equal(
            89,
            Lines.Of(new InstrumentLine(new Heartbeat(boot, new Tick(long.MaxValue), most, most, 100))).Length
        );
    }

    [Fact]
    public void A_line_across_buffers_reads_the_same()
    {
        var bytes = Lines.Of(
            new InstrumentLine(InstrumentEvent.LensMoved(new Tick(77), true) with { Boot = new(9), Sequence = 4 })
        );
        for (var split = 1; split < bytes.Length - 1; split++)
        {
            var chained = Chained(bytes[..split], bytes[split..^1]);
            Assert.True(InstrumentLineDecoder.TryDecode(chained, out var read, out _));
            Assert.True(read.Event.LensIn);
        }
    }

    [Fact]
    public void A_carriage_return_at_the_end_is_passed_over()
    {
        byte[] bytes = [.. Lines.Sealed("POS,R,5000,12"), (byte)'\r'];
        Assert.True(InstrumentLineDecoder.TryDecode(bytes, out var read, out _));
        Assert.Equal(new LivePosition(Eye.Right, new(5000), new(12)), read.Position);
    }

    [Fact]
    public void A_value_that_the_line_cannot_hold_is_refused_where_it_is_made()
    {
        var buffer = new byte[WireLimits.MaxLineBytes];
        var boot = new BootNumber(1);
        var good = InstrumentEvent.ScaleAtRest(default, Eye.Right, new(5)) with { Boot = boot, Sequence = 1 };
        Assert.Throws<ArgumentException>(() => InstrumentLineEncoder.Encode(new InstrumentLine(good), new byte[119]));
        foreach (
            var bad in new[]
            {
                good with
                {
                    Sequence = 0,
                },
                good with
                {
                    Eye = default,
                },
                good with
                {
                    Position = new(-1),
                },
                good with
                {
                    Position = new(100_000),
                },
                good with
                {
                    Tick = new(-1),
                },
                good with
                {
                    Kind = InstrumentEventKind.Unknown,
                },
            }
        )
            Assert.ThrowsAny<ArgumentException>(() => InstrumentLineEncoder.Encode(new InstrumentLine(bad), buffer));
        Assert.ThrowsAny<ArgumentException>(() => HostLineEncoder.Encode(HostLine.Ack(default, boot, 1), buffer));
    }

    private static ReadOnlySequence<byte> Chained(byte[] one, byte[] two)
    {
        var first = new Segment(one);
        var last = first.Then(two);
        return new ReadOnlySequence<byte>(first, 0, last, two.Length);
    }

    private static object Content(InstrumentLine line) =>
        line.Kind switch
        {
            InstrumentLineKind.Event => line.Event,
            InstrumentLineKind.Identity => line.Identity,
            InstrumentLineKind.Stop => line.Stop,
            InstrumentLineKind.Scale => line.Scale,
            InstrumentLineKind.Position => line.Position,
            InstrumentLineKind.Beat => line.Beat,
            InstrumentLineKind.Reply => line.Reply,
            InstrumentLineKind.Held => line.Held,
            InstrumentLineKind.NoVersion => line.Versions,
            _ => throw new InvalidOperationException("An unknown line has no content."),
        };

    private sealed class Segment : ReadOnlySequenceSegment<byte>
    {
        internal Segment(byte[] bytes) => Memory = bytes;

        internal Segment Then(byte[] bytes)
        {
            var next = new Segment(bytes) { RunningIndex = Memory.Length };
            Next = next;
            return next;
        }
    }
}
