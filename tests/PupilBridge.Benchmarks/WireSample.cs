using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Benchmarks;

/// <summary>A stream of event lines in the proportions of an exam: mostly lamp, rest and edge events.</summary>
internal static class WireSample
{
    public static byte[] Make(int lines)
    {
        var bytes = new byte[lines * WireLimits.MaxLineBytes];
        var length = 0;
        var random = new Random(20_261);
        for (var i = 1; i <= lines; i++)
        {
            var line = Event(random, new Tick(i * 40L)) with
            {
                Boot = new BootNumber(0x5EA1_0C4A_91B2_77D3),
                Sequence = i,
            };
            length += InstrumentLineEncoder.Encode(new InstrumentLine(line), bytes.AsSpan(length));
        }

        return bytes[..length];
    }

    private static InstrumentEvent Event(Random random, Tick tick)
    {
        var eye = random.Next(2) == 0 ? Eye.Right : Eye.Left;
        var position = new Micrometres(random.Next(3_000, 30_000));
        return random.Next(8) switch
        {
            0 => InstrumentEvent.ModeChanged(tick, InstrumentMode.Sequence, Block.SwingLong, ModeCause.Self),
            1 => InstrumentEvent.RoomMeasured(tick, random.Next(900_000)),
            2 or 3 => InstrumentEvent.EdgeMarked(tick, eye, PupilEdge.Nasal, position),
            4 => InstrumentEvent.ScaleAtRest(tick, eye, position),
            _ => InstrumentEvent.LampSwitched(tick, eye, random.Next(2) == 0, 100),
        };
    }
}
