using System.Diagnostics;
using PupilBridge.Clinic.Records;
using PupilBridge.ExamLog;
using PupilBridge.Exchange.Tables;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Exchange;

/// <summary>
/// Exports of a whole exam log: how many exams a second, and how much memory. The log is filled by the same program run before this one
/// (<c>export --fill</c>), so that the memory it took is not this process's.
/// </summary>
internal static class ExportMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, int exams)
    {
        var data = Path.Combine(folder, "data");
        await FillApartAsync(data, exams).ConfigureAwait(false);
        using var log = ExamLogStore.Open(data);
        var records = new RecordDesk(new StoredHouse(log), TimeProvider.System);
        var (half, full) = (0.0, 0.0);
        foreach (var format in Enum.GetValues<TableFormat>())
        {
            var file = new FileStream(Path.Combine(folder, $"exams.{format}"), FileMode.Create);
            await using (file.ConfigureAwait(false))
            {
                var watched = new MarkingStream(file);
                var start = Stopwatch.GetTimestamp();
                var count = await TableExport
                    .WriteAsync(ClinicTables.Exams, records, new TableSpan(null, null), format, watched, default)
                    .ConfigureAwait(false);
                var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
                if (count.Rows != exams)
                {
                    throw new InvalidOperationException($"{count.Rows} rows for {exams} exams.");
                }

                if (format == TableFormat.Csv)
                {
                    (half, full) = (watched.RssMbAt(0.1), watched.RssMbAt(1));
                    figures.Set("export_exams_per_s", count.Rows / seconds, 0);
                    figures.Set("export_exams", count.Rows);
                    figures.Set("export_csv_mb", watched.Bytes / 1e6);
                    figures.Set("export_rss_after_tenth_mb", half);
                    figures.Set("export_rss_at_end_mb", full);
                }
                else
                {
                    figures.Set("export_jsonl_exams_per_s", count.Rows / seconds, 0);
                }

                System.Console.WriteLine($"{format}: {count.Rows / seconds:0} exams/s, {watched.Bytes / 1e6:0} MB");
            }
        }

        figures.Set("export_rss_mb", PeakRssMb());
        System.Console.WriteLine($"memory after a tenth {half:0} MB, at the end {full:0} MB, peak {PeakRssMb():0} MB");
    }

    /// <summary>Fills an exam log; run as a process of its own.</summary>
    public static void Fill(string data, int exams)
    {
        Directory.CreateDirectory(data);
        using var log = ExamLogStore.Open(data);
        GeneratedLog.Fill(log, exams);
    }

    public static double RssMb() => Status("VmRSS:");

    private static double PeakRssMb() => Status("VmHWM:");

    private static double Status(string key) =>
        double.Parse(
            File.ReadLines("/proc/self/status")
                .First(line => line.StartsWith(key, StringComparison.Ordinal))
                .Split(' ', '\t', StringSplitOptions.RemoveEmptyEntries)[1]
        ) / 1024;

    private static async Task FillApartAsync(string data, int exams)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!);
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath!) == "dotnet")
        {
            start.ArgumentList.Add(typeof(ExportMeasure).Assembly.Location);
        }

        foreach (var word in (string[])["export", "--fill", data, "--count", $"{exams}"])
        {
            start.ArgumentList.Add(word);
        }

        using var filling = Process.Start(start)!;
        await filling.WaitForExitAsync().ConfigureAwait(false);
        if (filling.ExitCode != 0)
        {
            throw new InvalidOperationException("The exam log could not be filled.");
        }
    }
}
