using System.Diagnostics;
using System.Text.Json.Nodes;
using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;

namespace PupilBridge.Measure.Growth;

/// <summary>Data folders of growing length, each built, started, asked, killed, verified: one row of the table for each.</summary>
internal static class GrowthMeasure
{
    private static readonly TimeSpan LongestStart = TimeSpan.FromMinutes(30);

    /// <param name="figures">Where the values go.</param>
    /// <param name="folder">Where the data folders are made.</param>
    /// <param name="lengths">How many exams each of them holds.</param>
    /// <param name="keep">Whether they are left there, for <c>starts</c>.</param>
    public static async Task RunAsync(FigureFile figures, string folder, IReadOnlyList<long> lengths, bool keep)
    {
        var rows = new JsonArray();
        foreach (var exams in lengths)
        {
            var data = Directory.CreateDirectory(Path.Combine(folder, $"exams-{exams}")).FullName;
            var row = new JsonObject { ["exams"] = exams };
            await MeasureAsync(row, data, exams);
            rows.Add(row);
            System.Console.WriteLine(row.ToJsonString());
            if (!keep)
                Directory.Delete(data, recursive: true);
        }

        Ratios(figures, rows);
        figures.Set("rows", rows);
    }

    /// <summary>Starts after a clean stop on a data folder that is there, once to warm up and then seven times.</summary>
    public static async Task StartsAsync(FigureFile figures, string data)
    {
        if (!Directory.Exists(Path.Combine(data, "journal")))
            throw new ArgumentException($"{data} holds no journal; name a data folder that 'growth --keep' left.");
        var ready = new List<double>();
        await StartTimes.MeasureAsync(data, ServiceEnd.Stopped, LongestStart);
        for (var round = 0; round < 7; round++)
            ready.Add((await StartTimes.MeasureAsync(data, ServiceEnd.Stopped, LongestStart)).ReadySeconds);
        ready.Sort();
        System.Console.WriteLine(
            $"ready after {ready[3]:F2} s (median of {ready.Count}; {ready[0]:F2} to {ready[^1]:F2})"
        );
        var starts = new JsonObject { ["data_folder"] = Path.GetFileName(Path.TrimEndingDirectorySeparator(data)) };
        Set(starts, "median_s", ready[3]);
        Set(starts, "fastest_s", ready[0]);
        Set(starts, "slowest_s", ready[^1]);
        figures.Set("starts_after_clean_stop", starts);
    }

    private static async Task MeasureAsync(JsonObject row, string data, long exams)
    {
        Set(row, "write_journal_s", Seconds(() => row["entries"] = GrowingJournal.Write(data, exams)));
        var parts = KeptData.Parts(new BridgeOptions { DataFolder = data });
        Set(row, "rebuild_exam_log_s", Seconds(() => OfflineFolder.Rebuild(parts, "made to be measured", default)));
        var first = await StartTimes.MeasureAsync(data, ServiceEnd.Stopped, LongestStart);
        Set(row, "first_start_that_makes_the_entry_index_s", first.ReadySeconds);
        var clean = new List<StartTimes>();
        for (var round = 0; round < 3; round++)
            clean.Add(await StartTimes.MeasureAsync(data, ServiceEnd.Stopped, LongestStart));
        Set(row, "start_after_clean_stop_s", clean.Select(start => start.ReadySeconds).Order().ElementAt(1));
        Set(row, "service_rss_mb", clean.Select(start => start.ResidentMegabytes).Order().ElementAt(1));
        var asked = await AskingTimes.MeasureAsync(data, exams);
        Set(row, "ingest_event_ms", asked.Event);
        Set(row, "ingest_entry_ms", asked.Entry);
        Set(row, "repeated_entry_ms", asked.Repeat);
        Set(row, "patient_history_ms", asked.History);
        Set(row, "todays_list_ms", asked.Today);
        Set(row, "latest_exams_ms", asked.Latest);
        await StartTimes.MeasureAsync(data, ServiceEnd.Killed, LongestStart);
        var killed = await StartTimes.MeasureAsync(data, ServiceEnd.Stopped, LongestStart);
        Set(row, "start_after_kill_s", killed.ReadySeconds);
        Set(row, "verify_journal_s", Seconds(() => RequireSound(data)));
        Set(row, "verify_exam_log_s", Seconds(() => VerifyExamLog(data)));
        row["journal_mb"] = Megabytes(data, "journal");
        row["exam_log_mb"] = Megabytes(data, "examlog");
        row["entry_index_mb"] = Megabytes(data, "entry-index");
    }

    /// <summary>How many times slower the longest is than the shortest.</summary>
    private static void Ratios(FigureFile figures, JsonArray rows)
    {
        string[] keys =
        [
            "ingest_event_ms",
            "ingest_entry_ms",
            "patient_history_ms",
            "todays_list_ms",
            "start_after_clean_stop_s",
        ];
        foreach (var key in keys)
        {
            figures.Set(
                $"ratio_{key[..key.LastIndexOf('_')]}",
                rows[^1]![key]!.GetValue<double>() / rows[0]![key]!.GetValue<double>(),
                2
            );
        }
    }

    private static void RequireSound(string data)
    {
        var report = JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(data));
        if (!report.IsSound)
            throw new InvalidOperationException(report.Summary);
    }

    private static void VerifyExamLog(string data)
    {
        using var log = ExamLogStore.Open(data, KeptData.ExamLog(data));
        log.Verify();
    }

    private static double Seconds(Action work)
    {
        var begin = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(begin).TotalSeconds;
    }

    private static void Set(JsonObject row, string key, double value) => row[key] = Math.Round(value, 3);

    private static double Megabytes(string data, string folder) =>
        Math.Round(
            new DirectoryInfo(Path.Combine(data, folder)).EnumerateFiles().Sum(file => file.Length) / 1048576.0,
            1
        );
}
