using System.Diagnostics;
using PupilBridge.Benchmarks;
using PupilBridge.Instrument.Wire;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Codec;

/// <summary>A million lines through framer and decoder on one core: CRC checked, fields decoded.</summary>
internal static class CodecMeasure
{
    private const int Lines = 1_000_000;
    private const int Rounds = 15;

    public static void Run(FigureFile figures)
    {
        var wire = WireSample.Make(Lines);
        for (var warm = 0; warm < 3; warm++)
            DecodeAll(wire);
        var seconds = new List<double>();
        long allocated = 0;
        for (var round = 0; round < Rounds; round++)
        {
            var from = GC.GetAllocatedBytesForCurrentThread();
            var begin = Stopwatch.GetTimestamp();
            var decoded = DecodeAll(wire);
            seconds.Add(Stopwatch.GetElapsedTime(begin).TotalSeconds);
            allocated += GC.GetAllocatedBytesForCurrentThread() - from;
            if (decoded != Lines)
                throw new InvalidOperationException($"{decoded} of {Lines} lines were decoded.");
        }

        var median = Spread.Of(seconds).Median;
        figures.Set("codec_lines_per_s", (long)(Lines / median));
        figures.Set("codec_bytes_allocated_per_line", allocated / (double)(Lines * (long)Rounds), 3);
        figures.Set("codec_bytes_per_line", wire.Length / (double)Lines);
        System.Console.WriteLine(
            $"codec: {Lines / median:N0} lines/s of {wire.Length / (double)Lines:F1} bytes, {allocated} bytes allocated in {Rounds} rounds"
        );
    }

    private static int DecodeAll(ReadOnlySpan<byte> rest)
    {
        var good = 0;
        while (!rest.IsEmpty)
        {
            var frame = LineFramer.Next(rest, resyncing: false);
            if (InstrumentLineDecoder.TryDecode(rest[..frame.Length], out var line, out _) && line.Event.Sequence > 0)
                good++;
            rest = rest[frame.Consumed..];
        }

        return good;
    }
}
