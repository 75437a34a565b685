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
        Ask("list a patient's", n => again.ListExams(new ExamQuery { PatientId = $"Q-{1001 + (n % 40)}", Limit = 20 }));
    }

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
