using System.Globalization;
using PupilBridge.Measure.Figures;
using PupilBridge.Measure.Wire;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Measure.Idle;

/// <summary>What the service costs while one instrument only beats.</summary>
internal static class IdleMeasure
{
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan Watching = TimeSpan.FromSeconds(60);

    public static async Task RunAsync(FigureFile figures, string folder)
    {
        var run = Directory.CreateDirectory(Path.Combine(folder, "idle")).FullName;
        var link = Path.Combine(run, "line");
        await using var instrument = new WireInstrument(link);
        using var service = ServiceProcess.Start(Path.Combine(run, "data"), $"terminal:{link}");
        await instrument.MeetAsync();
        await Task.Delay(Settling);
        var before = ProcessorTicks(service.Id);
        await Task.Delay(Watching);
        var percent = (ProcessorTicks(service.Id) - before) / 100.0 / Watching.TotalSeconds * 100;
        var resident = ResidentMegabytes(service.Id);
        service.Stop();
        figures.Set("idle_rss_mb", resident);
        figures.Set("idle_cpu_percent", percent, 2);
        System.Console.WriteLine(
            $"idle: {resident:F1} MB resident, {percent:F2} % of a core over {Watching.TotalSeconds:F0} s"
        );
    }

    /// <summary>User and system time of a process in hundredths of a second: fields 14 and 15 of /proc/PID/stat.</summary>
    private static long ProcessorTicks(int process)
    {
        var stat = File.ReadAllText($"/proc/{process}/stat");
        var fields = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
        return long.Parse(fields[11], CultureInfo.InvariantCulture)
            + long.Parse(fields[12], CultureInfo.InvariantCulture);
    }

    /// <summary>Resident memory of a process, in MB.</summary>
    internal static double ResidentMegabytes(int process) =>
        double.Parse(
            File.ReadLines($"/proc/{process}/status")
                .First(l => l.StartsWith("VmRSS:", StringComparison.Ordinal))
                .Split(':')[1]
                .Replace("kB", "", StringComparison.Ordinal)
                .Trim(),
            CultureInfo.InvariantCulture
        ) / 1024;
}
