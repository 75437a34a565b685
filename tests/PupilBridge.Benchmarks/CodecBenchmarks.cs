using System.Buffers;
using BenchmarkDotNet.Attributes;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Benchmarks;

/// <summary>Framing, CRC and decoding of an instrument's lines; one operation is one line.</summary>
[MemoryDiagnoser]
public class CodecBenchmarks
{
    private const int Lines = 100_000;
    private byte[] wire = [];
    private ReadOnlySequence<byte> chain;

    [GlobalSetup]
    public void Setup()
    {
        wire = WireSample.Make(Lines);
        chain = Segment.Chain(wire, 4096);
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Lines)]
    public long DecodeFromOneBuffer()
    {
        ReadOnlySpan<byte> rest = wire;
        long sum = 0;
        while (!rest.IsEmpty)
        {
            var frame = LineFramer.Next(rest, resyncing: false);
            if (InstrumentLineDecoder.TryDecode(rest[..frame.Length], out var line, out _))
                sum += line.Event.Sequence;
            rest = rest[frame.Consumed..];
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Lines)]
    public long DecodeFromAChainOfReads()
    {
        var rest = chain;
        long sum = 0;
        while (!rest.IsEmpty)
        {
            var frame = LineFramer.Next(rest, resyncing: false);
            if (InstrumentLineDecoder.TryDecode(rest.Slice(0, frame.Length), out var line, out _))
                sum += line.Event.Sequence;
            rest = rest.Slice(frame.Consumed);
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Lines)]
    public long SplitAndParseWithStrings()
    {
        using var reader = new StreamReader(new MemoryStream(wire));
        long sum = 0;
        while (reader.ReadLine() is { } line)
        {
            var star = line.LastIndexOf('*');
            var crc = Convert.ToUInt32(line[(star + 1)..], 16);
            if (crc == LineCrc.Of(System.Text.Encoding.ASCII.GetBytes(line[..star])))
                sum += long.Parse(line[..star].Split(',')[2], System.Globalization.CultureInfo.InvariantCulture);
        }

        return sum;
    }

    private sealed class Segment : ReadOnlySequenceSegment<byte>
    {
        public static ReadOnlySequence<byte> Chain(byte[] bytes, int size)
        {
            var first = new Segment { Memory = bytes.AsMemory(0, Math.Min(size, bytes.Length)) };
            var last = first;
            for (var at = size; at < bytes.Length; at += size)
            {
                var next = new Segment
                {
                    Memory = bytes.AsMemory(at, Math.Min(size, bytes.Length - at)),
                    RunningIndex = last.RunningIndex + last.Memory.Length,
                };
                last.Next = next;
                last = next;
            }

            return new ReadOnlySequence<byte>(first, 0, last, last.Memory.Length);
        }
    }
}
