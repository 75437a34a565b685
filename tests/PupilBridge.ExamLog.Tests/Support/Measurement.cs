using System.Diagnostics;
using System.Globalization;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>
/// Measures how fast the exam log takes exams of a usual size, how long it takes to open, and how long its questions take. It
/// prints the figures; nothing is asserted here.
/// </summary>
internal static class Measurement
{
    private const int BodyBytes = 12_000;

    public static void Run(string folder)
    {
        foreach (var batch in new[] { 1, 10, 100 })
        {
            Apply(Path.Combine(folder, $"batch-{batch}"), batch, exams: batch == 1 ? 5_000 : 20_000);
        }
    }

    private static void Apply(string folder, int batch, int exams)
    {
        Directory.CreateDirectory(folder);
        var chunks = Enumerable
            .Range(0, exams)
            .Select(n => Samples.Exam(n, bodyBytes: BodyBytes))
            .Chunk(batch)
            .ToList();
        long LastPass(long upTo, ExamLogStore store)
        {
            foreach (var chunk in chunks)
            {
                store.Apply(++upTo, new ExamLogChanges { Exams = chunk });
            }

            return upTo;
        }

        using (var store = ExamLogStore.Open(folder))
        {
            var clock = Stopwatch.StartNew();
            var upTo = LastPass(0, store);
            Say($"apply, new exams, batches of {batch}", exams / clock.Elapsed.TotalSeconds, "exams/s");
            clock.Restart();
            LastPass(upTo, store);
            Say($"apply, exams again, batches of {batch}", exams / clock.Elapsed.TotalSeconds, "exams/s");
            clock.Restart();
            store.Verify();
            Say($"verify {exams} exams", clock.Elapsed.TotalMilliseconds, "ms");
            clock.Restart();
            store.Dispose();
            Say("close in order", clock.Elapsed.TotalMilliseconds, "ms");
        }

        var mebibytes = new FileInfo(Path.Combine(folder, "examlog", "exams.db")).Length / 1024.0 / 1024;
        var opening = Stopwatch.StartNew();
        using var again = ExamLogStore.Open(folder);
        Say($"open with {exams} exams, {mebibytes:0} MiB", opening.Elapsed.TotalMilliseconds, "ms");
        Ask("find an exam", n => again.FindExam(Samples.Exam(n * 37 % exams, bodyBytes: 0).Id));
        Ask("list 50 latest", _ => again.ListExams(new ExamQuery()));
        Ask(
            "list a patient's",
            n => again.ListExams(new ExamQuery { PatientIds = [$"Q-{1001 + (n % 40)}"], Limit = 20 })
        );
    }

    /// <summary>How long pages take in a long log of small exams, and how long it takes to make one.</summary>
    public static void Search(string folder, int exams)
    {
        const int Batch = 1000;
        var data = Path.Combine(folder, $"search-{exams}");
        Directory.CreateDirectory(data);
        using var store = ExamLogStore.Open(data);
        var clock = Stopwatch.StartNew();
        var upTo = 0L;
        for (var from = 0; from < exams; from += Batch)
        {
            var range = Enumerable.Range(from, Math.Min(Batch, exams - from)).ToList();
            store.Apply(
                ++upTo,
                new ExamLogChanges
                {
                    Exams = range.ConvertAll(Samples.OneOfMany),
                    Patients = [.. range.Where(n => n % 4 == 0).Select(n => Samples.Patient(n / 4))],
                }
            );
        }

        store.CheckpointIfNeeded();
        Say($"make a log of {exams} exams, {exams / 4} patients", clock.Elapsed.TotalSeconds, "s");
        var size = new FileInfo(Path.Combine(data, "examlog", "exams.db")).Length / 1024.0 / 1024;
        Say("its size", size, "MiB");
        Pages(store, exams);
        clock.Restart();
        store.Verify();
        Say("verify all of it", clock.Elapsed.TotalSeconds, "s");
    }

    private static void Pages(ExamLogStore store, int exams)
    {
        var middle = Samples.OneOfMany(exams / 2).OpenedAt;
        Ask("page of 50: latest", _ => store.ListExams(new ExamQuery()));
        Ask(
            "  from the middle of the log",
            n => store.ListExams(new ExamQuery { OpenedBefore = middle.AddMinutes(n) })
        );
        Ask(
            "  one patient",
            n => store.ListExams(new ExamQuery { PatientIds = [Samples.OneOfMany(n * 97 % exams).PatientId!] })
        );
        Ask("  one examiner", _ => store.ListExams(new ExamQuery { Examiner = "m3" }));
        Ask("  two statuses", _ => store.ListExams(new ExamQuery { Statuses = ["signed", "amended"] }));
        Ask("  a finding (2 %)", _ => store.ListExams(new ExamQuery { Finding = "not-round" }));
        Ask(
            "  a finding and a status",
            _ => store.ListExams(new ExamQuery { Finding = "not-round", Status = "signed" })
        );
        Ask(
            "  a finding, an examiner, a year",
            _ =>
                store.ListExams(
                    new ExamQuery
                    {
                        Finding = "not-round",
                        Examiner = "M3",
                        OpenedBefore = middle,
                        OpenedFrom = middle.AddDays(-365),
                    }
                )
        );
        Ask("  nothing fits, 2,000 looked at", _ => store.ListExams(Nothing(middle)));
        Ask("  review list", _ => store.ListForReview());
        Ask("patients: 50 by a name that many share", _ => store.SearchPatients("ann"));
        Ask("patients: beginning of a number", n => store.SearchPatients($"Q-{1001 + (n * 7 % 250)}"));
        Ask("patients: two words that rarely meet", _ => store.SearchPatients("dev öz"));
    }

    /// <summary>Exams with an even number have the one examiner and those with an odd number the status, so that none has both.</summary>
    private static ExamQuery Nothing(DateTimeOffset before) =>
        new()
        {
            Examiner = "m0",
            Status = "signed",
            OpenedBefore = before,
        };

    private static void Ask(string what, Action<int> question)
    {
        question(0);
        var times = new List<double>();
        for (var n = 1; n <= 200; n++)
        {
            var clock = Stopwatch.StartNew();
            question(n);
            times.Add(clock.Elapsed.TotalMicroseconds);
        }

        times.Sort();
        Say($"{what}, median of 200", times[100], "µs");
    }

    private static void Say(string what, double value, string unit) =>
        System.Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what, -45} {value, 10:0} {unit}"));
}
