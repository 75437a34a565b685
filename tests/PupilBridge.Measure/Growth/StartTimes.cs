using System.Diagnostics;
using PupilBridge.Measure.Idle;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Measure.Growth;

/// <summary>The real executable on a data folder: how long until it is ready, what it takes of memory.</summary>
/// <param name="ReadySeconds">From the start of the process until it says that it runs, the runtime's own start included.</param>
/// <param name="ResidentMegabytes">Its memory two seconds later.</param>
internal sealed record StartTimes(double ReadySeconds, double ResidentMegabytes)
{
    /// <summary>Starts the service, and ends it.</summary>
    /// <param name="dataFolder">Its data folder.</param>
    /// <param name="end">How.</param>
    /// <param name="patience">How long at most.</param>
    public static async Task<StartTimes> MeasureAsync(string dataFolder, ServiceEnd end, TimeSpan patience)
    {
        var watch = Stopwatch.StartNew();
        using var service = ServiceProcess.Start(dataFolder, "terminal:/nowhere");
        await service.UntilAsync(
            () => Task.FromResult(service.Said.Contains("PupilBridge runs", StringComparison.Ordinal)),
            patience,
            "The service did not come up"
        );
        var ready = watch.Elapsed;
        await Task.Delay(TimeSpan.FromSeconds(2));
        var resident = IdleMeasure.ResidentMegabytes(service.Id);
        if (end == ServiceEnd.Killed)
            service.Kill();
        else
            service.Stop();
        return new StartTimes(ready.TotalSeconds, resident);
    }
}

/// <summary>How a service ends.</summary>
internal enum ServiceEnd
{
    /// <summary>It is asked to stop.</summary>
    Stopped = 1,

    /// <summary>It is killed.</summary>
    Killed = 2,
}
