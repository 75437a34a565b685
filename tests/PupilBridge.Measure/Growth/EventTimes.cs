using System.Diagnostics;
using PupilBridge.Measure.Figures;
using PupilBridge.Worker;

namespace PupilBridge.Measure.Growth;

/// <summary>Events given to a running bridge one after the other, each after the one before was acknowledged.</summary>
internal static class EventTimes
{
    private const int Events = 2_000;

    /// <summary>The median time until one is acknowledged, in milliseconds.</summary>
    public static async Task<double> MedianAsync(Bridge bridge)
    {
        await Task.Yield();
        var events = new EventStream();
        var times = new List<double>();
        for (var number = 1L; number <= Events; number++)
        {
            var reported = events.Next();
            var begin = Stopwatch.GetTimestamp();
            bridge.Keeper.Submit(reported);
            var spin = new SpinWait();
            while (bridge.Keeper.Waiting > 0)
                spin.SpinOnce(sleep1Threshold: -1);
            times.Add(Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
        }

        return Spread.Of(times.Skip(Events / 10)).Median;
    }
}
