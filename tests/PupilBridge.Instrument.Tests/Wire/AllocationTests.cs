using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

public class AllocationTests
{
    private static readonly string[] Bodies =
    [
        "ID,1,QA-0001,Quay-A,1.0,8F3A11C02B77D4E9,MLPO,7,0,-",
        "STOP,3,SEQUENCE,SWINGSHORT",
        "SCALE,R,200,OUT,10,0,12000",
        "EV,8F3A11C02B77D4E9,1,5,MODE,IDLE,-,DIAL",
        "EV,8F3A11C02B77D4E9,2,6,FAULT,12,the lamp of the left eye is weak",
        "EV,8F3A11C02B77D4E9,3,7,BLINK,L,3,extra",
        "POS,L,5120,8",
        "BEAT,8F3A11C02B77D4E9,9,1,3,88",
        "DONE,00C0FFEE,4,REFUSED,dial is not in idle",
        "HELD,00C0FFEE,3",
        "SPARKLE,1",
        "EV,8F3A11C02B77D4E9,0,7,OFF",
    ];

    [Fact]
    public void Framing_and_decoding_allocate_nothing()
    {
        byte[] stream = [.. Bodies.SelectMany(b => Lines.Sealed(b).Append((byte)'\n')), .. "broken*00000000\n"u8];
        Assert.Equal((11, 2), Read(stream));
        Assert.Equal(0, LeastAllocated(() => Read(stream)));
    }

    [Fact]
    public void Encoding_allocates_nothing()
    {
        var buffer = new byte[WireLimits.MaxLineBytes];
        var line = new InstrumentLine(
            InstrumentEvent.FaultReported(new(5), 12, "lamp") with
            {
                Boot = new(1),
                Sequence = 1,
            }
        );
        var host = HostLine.Ack(new HostId(1), new BootNumber(2), 3);
        Assert.Equal(0, LeastAllocated(() => Encode(line, host, buffer)));
    }

    [Fact]
    public void An_allocation_for_each_line_would_show() =>
        Assert.True(LeastAllocated(() => GC.KeepAlive(new object())) >= 1_000 * IntPtr.Size);

    /// <summary>
    /// The bytes that a thousand turns allocate, the least of five rounds: what an act allocates shows in each round, what the
    /// runtime allocates now and then on the same thread, while it compiles anew, does not.
    /// </summary>
    private static long LeastAllocated(Action act)
    {
        var least = long.MaxValue;
        for (var round = 0; round < 5; round++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            for (var turn = 0; turn < 1_000; turn++)
                act();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }

    private static void Encode(in InstrumentLine line, in HostLine host, byte[] buffer)
    {
        InstrumentLineEncoder.Encode(line, buffer);
        HostLineEncoder.Encode(host, buffer);
    }

    private static (int Good, int Faulty) Read(ReadOnlySpan<byte> stream)
    {
        var (good, faulty) = (0, 0);
        while (LineFramer.Next(stream, false) is { Kind: FrameKind.Line } frame)
        {
            if (InstrumentLineDecoder.TryDecode(stream[..frame.Length], out _, out _))
                good++;
            else
                faulty++;
            stream = stream[frame.Consumed..];
        }

        return (good, faulty);
    }
}
