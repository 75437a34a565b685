using CsCheck;
using PupilBridge.Clinic.Tests.Support;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;

namespace PupilBridge.Clinic.Tests.House;

/// <summary>
/// Whatever the journal holds and wherever the program was stopped and started again, the exam log that grew with it is the one that
/// is built from the journal at once.
/// </summary>
public class ProjectionPropertyTests
{
    [Fact]
    public void An_exam_log_that_grew_through_restarts_equals_the_one_built_at_once() =>
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[5, 120], Gen.Int[1, 12])
            .Sample((seed, steps, pieces) => Same(seed, steps, pieces), iter: 25, threads: 1);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_whole_day_with_many_restarts(int seed) => Same(seed, steps: 600, pieces: 40);

    /// <summary>A start that read the journal from its beginning met an exam as it became later, and made one exam too many.</summary>
    [Fact]
    public void A_start_goes_on_where_the_exam_log_stands() => Same(seed: 924_059, steps: 65, pieces: 12);

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void A_day_with_a_technician_at_the_bench_and_many_restarts(int seed) =>
        Same(seed, steps: 600, pieces: 40, withBench: true);

    [Fact]
    public void An_exam_log_that_grew_through_restarts_with_bench_runs_equals_the_one_built_at_once() =>
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[5, 120], Gen.Int[1, 12])
            .Sample((seed, steps, pieces) => Same(seed, steps, pieces, withBench: true), iter: 15, threads: 1);

    private static void Same(int seed, int steps, int pieces, bool withBench = false)
    {
        var folder = Directory.CreateTempSubdirectory("projection-test-");
        try
        {
            var parts = new BridgeParts { Options = new BridgeOptions { DataFolder = folder.FullName } };
            var dice = new Random(seed);
            var end = new JournalEnd();
            using var day = new RandomDay(seed, withBench).Entries(steps, () => end.Sequence).GetEnumerator();
            for (var more = true; more; )
            {
                more = Append(parts, day, end, count: dice.Next(1, Math.Max(2, steps * 4 / pieces)));
                // A start: it brings the exam log up to the journal and closes it.
                using var opened = OfflineFolder.Open(parts);
                Assert.True(opened.Log.LastApplied <= end.Sequence);
            }

            var check = ProjectionCheck.Offline(parts, default);
            Assert.True(check.IsSame, $"seed {seed}, {steps} steps: {check}");
            Assert.True(steps < 500 || check.InExamLog!.Documents > 50, $"too little happened: {check}");
            if (withBench && steps >= 500)
            {
                using var opened = OfflineFolder.Open(parts);
                Assert.True(opened.Exams.Book.NextCertificate > 1, "no certificate was issued");
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static bool Append(BridgeParts parts, IEnumerator<JournalEntry> day, JournalEnd end, int count)
    {
        using var writer = JournalWriter.Open(
            parts.Disk,
            new JournalOptions { Folder = new JournalFolder(parts.Options.DataFolder) }
        );
        end.Sequence = Math.Max(end.Sequence, writer.Durable.Sequence);
        var more = true;
        for (var n = 0; n < count && (more = day.MoveNext()); n++)
        {
            end.Sequence = writer.Append(EntryCodec.Encode(day.Current));
        }

        Assert.True(writer.Commit().IsDurable);
        return more;
    }

    private sealed class JournalEnd
    {
        public long Sequence { get; set; }
    }
}
