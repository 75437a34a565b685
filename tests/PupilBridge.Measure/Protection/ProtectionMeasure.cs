using System.Diagnostics;
using System.Globalization;
using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Measure.Exchange;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Protection;

/// <summary>
/// What encryption costs: the same entries through the journal in the clear and encrypted, turn about, and read back and verified;
/// the same exams through the exam log.
/// </summary>
internal static class ProtectionMeasure
{
    private const int EntryBytes = 200;
    private const int VerifiedRecords = 200_000;
    private const int Exams = 2_000;
    private static readonly KeyRing Keys = KeyRing.Create(TimeProvider.System);
    private static readonly byte[] Entry = [.. Enumerable.Range(0, EntryBytes).Select(n => (byte)n)];

    public static void Run(FigureFile figures, string folder, double seconds)
    {
        figures.Set("entry_bytes", EntryBytes);
        foreach (var batch in (int[])[1, 10, 100, 1000])
        {
            var rates = new Dictionary<bool, List<double>> { [false] = [], [true] = [] };
            for (var turn = 0; turn < 6; turn++)
                rates[turn % 2 == 1]
                    .Add(Append(Path.Combine(folder, $"append-{batch}-{turn}"), turn % 2 == 1, batch, seconds));
            Tell(figures, $"append_per_s_x{batch}", Middle(rates[false]), Middle(rates[true]));
        }

        Tell(figures, "verify_records_per_s", Verify(folder, encrypt: false), Verify(folder, encrypt: true));
        Tell(figures, "exam_log_exams_per_s", Apply(folder, encrypt: false), Apply(folder, encrypt: true));
    }

    private static double Append(string folder, bool encrypt, int batch, double seconds)
    {
        using var writer = JournalWriter.Open(RealDisk.Instance, Options(folder, encrypt));
        var (begin, count) = (Stopwatch.GetTimestamp(), 0L);
        while (Stopwatch.GetElapsedTime(begin).TotalSeconds < seconds)
        {
            for (var i = 0; i < batch; i++)
                writer.Append(Entry);
            if (!writer.Commit().IsDurable)
                throw new IOException("A commit failed while measuring.");
            count += batch;
        }

        return count / Stopwatch.GetElapsedTime(begin).TotalSeconds;
    }

    private static double Verify(string folder, bool encrypt)
    {
        var options = Options(Path.Combine(folder, $"verify-{encrypt}"), encrypt);
        using (var writer = JournalWriter.Open(RealDisk.Instance, options))
        {
            for (var i = 1; i <= VerifiedRecords; i++)
            {
                writer.Append(Entry);
                if (i % 1000 == 0)
                    writer.Commit();
            }
        }

        var begin = Stopwatch.GetTimestamp();
        var report = JournalVerifier.Verify(RealDisk.Instance, options.Folder);
        var took = Stopwatch.GetElapsedTime(begin);
        return
            report.IsSound
            && report.Records == VerifiedRecords
            && report.OpenedRecords == (encrypt ? VerifiedRecords : 0)
            ? VerifiedRecords / took.TotalSeconds
            : throw new InvalidOperationException(report.Summary);
    }

    private static double Apply(string folder, bool encrypt)
    {
        var data = Directory.CreateDirectory(Path.Combine(folder, $"exams-{encrypt}")).FullName;
        using var log = ExamLogStore.Open(data, new ExamLogOptions { Keys = Keys, Encrypt = encrypt });
        var begin = Stopwatch.GetTimestamp();
        GeneratedLog.Fill(log, Exams);
        return Exams / Stopwatch.GetElapsedTime(begin).TotalSeconds;
    }

    private static JournalOptions Options(string folder, bool encrypt) =>
        new()
        {
            Folder = new JournalFolder(folder) { Keys = Keys },
            Encrypt = encrypt,
        };

    private static double Middle(List<double> rates) => rates.Order().ElementAt(rates.Count / 2);

    private static void Tell(FigureFile figures, string key, double plain, double encrypted)
    {
        figures.Set($"{key}_plain", (long)plain);
        figures.Set($"{key}_encrypted", (long)encrypted);
        System.Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{key}: {plain:N0} in the clear, {encrypted:N0} encrypted ({encrypted / plain:P0})"
            )
        );
    }
}
