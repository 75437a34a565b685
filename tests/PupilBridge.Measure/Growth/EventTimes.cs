using System.Diagnostics;
using System.Globalization;
using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
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
        var boot = new BootNumber((ulong)Stopwatch.GetTimestamp());
        var times = new List<double>();
        for (var number = 1L; number <= Events; number++)
        {
            var reported = Reported(boot, number);
            var begin = Stopwatch.GetTimestamp();
            bridge.Keeper.Submit(reported);
            var spin = new SpinWait();
            while (bridge.Keeper.Waiting > 0)
                spin.SpinOnce(sleep1Threshold: -1);
            times.Add(Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
        }

        return Spread.Of(times.Skip(Events / 10)).Median;
    }

    private static InstrumentReported Reported(BootNumber boot, long number)
    {
        var body = string.Create(
            CultureInfo.InvariantCulture,
            $"EV,{boot},{number},{number * 40},REST,R,{2000 + number}"
        );
        var now = UtcTime.From(TimeProvider.System.GetUtcNow());
        return new InstrumentReported
        {
            Serial = new SerialNumber("QA-0799"),
            Boot = boot,
            Sequence = number,
            RawLine = string.Create(
                CultureInfo.InvariantCulture,
                $"{body}*{LineCrc.Of(Encoding.ASCII.GetBytes(body)):X8}"
            ),
            HappenedAt = now,
            UncertaintyMilliseconds = 2,
            ArrivedAt = now,
        };
    }
}
