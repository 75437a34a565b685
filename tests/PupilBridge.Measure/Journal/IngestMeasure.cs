using System.Diagnostics;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios;
using PupilBridge.Scenarios.InMemory;
using PupilBridge.Simulator.Faults;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Measure.Journal;

/// <summary>
/// Events of whole exams through the running bridge, so many at a time, each time waiting until the journal has acknowledged
/// them; beside it, how far the exam log is behind at the end and how long it takes to catch up.
/// </summary>
internal static class IngestMeasure
{
    private static readonly TimeSpan Lasting = TimeSpan.FromSeconds(5);

    public static async Task RunAsync(FigureFile figures, string folder)
    {
        var exam = FaultExam.Run(Path.Combine(folder, "sample"), 4, FaultSet.None).Journal;
        var events = exam.Select(e => e.Entry).OfType<InstrumentReported>().ToArray();
        foreach (var batch in (int[])[1, 10, 100])
        {
            var (perSecond, lag, catchUp) = await MeasureAsync(Path.Combine(folder, $"ingest-{batch}"), events, batch);
            figures.Set($"ingest_per_s_x{batch}", (long)perSecond);
            figures.Set($"exam_log_lag_entries_x{batch}", lag);
            figures.Set($"exam_log_catch_up_ms_x{batch}", catchUp.TotalMilliseconds);
            System.Console.WriteLine(
                $"ingest x{batch}: {perSecond:N0} events/s acknowledged; exam log {lag} entries behind, caught up after {catchUp.TotalMilliseconds:F0} ms"
            );
        }
    }

    private static async Task<(double PerSecond, long Lag, TimeSpan CatchUp)> MeasureAsync(
        string folder,
        InstrumentReported[] exam,
        int batch
    )
    {
        var options = new BridgeOptions { DataFolder = folder };
        options.Ports.Add("memory:none");
        await using var bridge = Bridge.Open(KeptData.Parts(options));
        using var source = EventStream(exam).GetEnumerator();
        for (var warm = 0; warm < 20; warm++)
            Give(bridge, source, batch);
        var (begin, count) = (Stopwatch.GetTimestamp(), 0L);
        while (Stopwatch.GetElapsedTime(begin) < Lasting)
        {
            Give(bridge, source, batch);
            count += batch;
        }

        var took = Stopwatch.GetElapsedTime(begin);
        var lag = bridge.Health.ExamLogLag;
        var wait = Stopwatch.StartNew();
        while (bridge.Health.ExamLogLag > 0 && wait.Elapsed < TimeSpan.FromMinutes(2))
            await Task.Delay(5);
        var caughtUp = wait.Elapsed;
        await bridge.StopAsync();
        return (count / took.TotalSeconds, lag, caughtUp);
    }

    private static void Give(Bridge bridge, IEnumerator<InstrumentReported> source, int batch)
    {
        for (var i = 0; i < batch; i++)
        {
            source.MoveNext();
            bridge.Keeper.Submit(source.Current);
        }

        var spin = new SpinWait();
        while (bridge.Keeper.Waiting > 0)
            spin.SpinOnce(sleep1Threshold: -1);
    }

    /// <summary>The sample exam over and over, each time as another boot a few minutes later.</summary>
    private static IEnumerable<InstrumentReported> EventStream(InstrumentReported[] exam)
    {
        for (var round = 0UL; ; round++)
        {
            var later = TimeSpan.FromMinutes(10 * round);
            foreach (var e in exam)
            {
                yield return e with
                {
                    Boot = new BootNumber(e.Boot.Value + round),
                    HappenedAt = UtcTime.From(e.HappenedAt.ToDateTimeOffset() + later),
                    ArrivedAt = UtcTime.From(e.ArrivedAt.ToDateTimeOffset() + later),
                };
            }
        }
    }
}
