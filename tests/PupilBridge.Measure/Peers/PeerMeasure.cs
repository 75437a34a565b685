using System.Buffers;
using System.Diagnostics;
using PupilBridge.Benchmarks;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Measure.Figures;
using PupilBridge.Measure.Growth;

namespace PupilBridge.Measure.Peers;

/// <summary>Ours beside others, in turns and in one run: medians of alternating rounds.</summary>
internal static class PeerMeasure
{
    private static readonly int[] Batches = [1, 10, 100, 1000];

    public static async Task RunAsync(FigureFile figures, string folder, int rounds, TimeSpan turn, int lines)
    {
        Lines(figures, rounds, lines);
        await DurableAsync(figures, folder, rounds, turn);
    }

    private static void Lines(FigureFile figures, int rounds, int lines)
    {
        var wire = WireSample.Make(lines);
        var json = LinePeers.ToJson(wire);
        var copy = new byte[wire.Length];
        (string Name, Func<int> Read)[] readers =
        [
            ("ours", () => LinePeers.Ours(wire)),
            ("superpower", () => LinePeers.Combinator(wire)),
            ("utf8_json_reader", () => LinePeers.Json(json)),
            (
                "memory_copy",
                () =>
                {
                    wire.CopyTo(copy, 0);
                    return lines;
                }
            ),
        ];
        var seconds = readers.ToDictionary(reader => reader.Name, _ => new List<double>());
        for (var round = 0; round <= rounds; round++)
        {
            foreach (var (name, read) in readers)
            {
                var begin = Stopwatch.GetTimestamp();
                var good = read();
                var took = Stopwatch.GetElapsedTime(begin).TotalSeconds;
                if (good != lines)
                    throw new InvalidOperationException($"{name} read {good} of {lines} lines.");
                // The first round only warms up.
                if (round > 0)
                    seconds[name].Add(took);
            }
        }

        foreach (var (name, took) in seconds)
        {
            var perSecond = lines / Spread.Of(took).Median;
            figures.Set($"lines_per_s_{name}", (long)perSecond);
            System.Console.WriteLine($"lines: {name} {perSecond:N0} a second");
        }
    }

    private static async Task DurableAsync(FigureFile figures, string folder, int rounds, TimeSpan turn)
    {
        var payload = Payload();
        await using var bridge = new BridgePeer(Path.Combine(folder, "bridge"));
        await using var journal = new JournalPeer(Path.Combine(folder, "journal"), payload);
        await using var sqlite = new SqlitePeer(Path.Combine(folder, "sqlite"), payload);
        await using var bare = new BarePeer(Path.Combine(folder, "bare"), payload);
        figures.Set("payload_bytes", payload.Length);
        foreach (var batch in Batches)
        {
            IDurablePeer[] peers = [bridge, journal, sqlite, bare];
            var rates = peers.ToDictionary(peer => peer.Name, _ => new List<double>());
            var lags = new List<double>();
            for (var round = 0; round < rounds; round++)
            {
                foreach (var peer in peers)
                    rates[peer.Name].Add(Rate(peer, batch, turn, lags));
                await bridge.RestAsync();
            }

            foreach (var (name, perSecond) in rates)
            {
                figures.Set($"{name}_per_s_x{batch}", (long)Spread.Of(perSecond).Median);
                System.Console.WriteLine($"x{batch}: {name} {Spread.Of(perSecond).Median:N0} records a second");
            }

            figures.Set($"bridge_exam_log_lag_entries_x{batch}", (long)Spread.Of(lags).Median);
        }
    }

    private static double Rate(IDurablePeer peer, int batch, TimeSpan turn, List<double> lags)
    {
        peer.Commit(batch);
        var (begin, records) = (Stopwatch.GetTimestamp(), 0L);
        while (Stopwatch.GetElapsedTime(begin) < turn)
        {
            peer.Commit(batch);
            records += batch;
        }

        var took = Stopwatch.GetElapsedTime(begin).TotalSeconds;
        if (peer is BridgePeer bridge)
        {
            lags.Add(bridge.Lag);
            bridge.RestAsync().Wait();
        }

        return records / took;
    }

    /// <summary>One event as the journal keeps it, so that all have the same bytes.</summary>
    private static byte[] Payload()
    {
        var bytes = new ArrayBufferWriter<byte>();
        EntryCodec.Encode(new EventStream().Next(), bytes);
        return bytes.WrittenSpan.ToArray();
    }
}
