using CsCheck;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Tests.Scripts;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>What must hold of bench and clinic side by side, for any journal whatever.</summary>
public class BenchPropertyTests
{
    [Fact]
    public void No_entry_of_the_bench_changes_an_exam_of_a_patient_but_that_a_run_ends_it()
    {
        var ended = 0;
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                foreach (var entry in folded.Journal.Where(e => IsOfBench(e.Entry)))
                {
                    foreach (
                        var change in folded.Changes.OfType<ExamChanged>().Where(c => c.Sequence == entry.Sequence)
                    )
                    {
                        Assert.IsType<BenchRunBegun>(entry.Entry);
                        Assert.Equal((true, false), (change.IsOver, change.IsNew));
                        Assert.Equal(ClosingReason.AnotherOpened, change.Exam.Closing!.Reason);
                        Interlocked.Increment(ref ended);
                    }
                }
            },
            iter: 3_000
        );
        Assert.True(ended > 50, $"exams that a run ended: {ended}");
    }

    [Fact]
    public void A_sitting_is_an_exam_or_a_run_for_good_and_no_entry_about_a_run_changes_an_exam()
    {
        var strayed = 0;
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                Assert.Empty(folded.Exams.Keys.Intersect(folded.Runs.Keys));
                Assert.All(folded.Exams.Values, exam => Assert.Null(exam.Bench));
                Assert.All(folded.Runs.Values, run => Assert.Null(run.Patient));
                foreach (var entry in folded.Journal)
                {
                    if (entry.Entry is not ExamEntry about || !folded.Runs.ContainsKey(about.Exam))
                        continue;
                    Assert.DoesNotContain(folded.Changes, c => c is ExamChanged && c.Sequence == entry.Sequence);
                    if (!IsOfBench(entry.Entry))
                        Interlocked.Increment(ref strayed);
                }
            },
            iter: 3_000
        );
        Assert.True(strayed > 50, $"entries of a patient's exam that were about a run: {strayed}");
    }

    [Fact]
    public void Everything_that_is_computed_from_a_run_can_be_computed_for_any_run()
    {
        var (counted, fits) = (0, 0);
        WildScripts.Any.Sample(
            script =>
            {
                foreach (var run in WildScripts.Run(script).Runs.Values)
                {
                    var progress = RunProgress.Of(run);
                    Assert.Equal(run.Captures.Count, progress.Readings.Count);
                    // Each step of the plan is asked for still or counts, but that both may count of one measured again.
                    Assert.True(progress.Counting.Count() + progress.ToCome.Count >= run.Bench!.Plan.Count);
                    Assert.Equal(run.Id, BenchRunSummary.Of(run).Run);
                    Interlocked.Add(ref counted, progress.Counting.Count());
                    if (run.Bench.Kind == BenchRunKind.Calibration && CalibrationOutcome.Of(run).Right.Fit is not null)
                        Interlocked.Increment(ref fits);
                }
            },
            iter: 2_000
        );
        Assert.True(counted > 500, $"readings that counted: {counted}");
        Assert.True(fits > 5, $"runs that gave a fit: {fits}");
    }

    [Fact]
    public void Equal_journals_give_equal_books()
    {
        var certificates = 0;
        WildScripts.Any.Sample(
            script =>
            {
                var one = WildScripts.Run(script);
                var other = Folded.Of([.. one.Journal]);
                Assert.Equal(one.Exams.Values, other.Exams.Values);
                Assert.Equal(one.Runs.Values, other.Runs.Values);
                Assert.Equal(one.Book.Lanes.Values, other.Book.Lanes.Values);
                Assert.Equal(one.Book.DiscSets.Values, other.Book.DiscSets.Values);
                Assert.Equal(one.Book.NextCertificate, other.Book.NextCertificate);
                Assert.Equal(one.Changes, other.Changes);
                Interlocked.Add(ref certificates, (int)one.Book.NextCertificate - 1);
            },
            iter: 1_000
        );
        Assert.True(certificates > 5, $"certificates that were issued: {certificates}");
    }

    [Fact]
    public void Certificates_are_numbered_without_a_gap_and_each_run_has_at_most_one() =>
        WildScripts.Any.Sample(
            script =>
            {
                var folded = WildScripts.Run(script);
                var issued = folded.Book.Lanes.Values.SelectMany(lane => lane.Calibrations).OrderBy(one => one.Number);
                Assert.Equal(
                    Enumerable.Range(1, (int)folded.Book.NextCertificate - 1).Select(number => (long)number),
                    issued.Select(one => one.Number)
                );
                Assert.All(issued, one => Assert.Equal(one.Number, folded.Runs[one.Run].Bench!.Certificate));
                Assert.All(
                    folded.Exams.Values,
                    exam => Assert.True(exam.Calibration is null || exam.Calibration.Effective <= exam.Opening.When.At)
                );
            },
            iter: 2_000
        );

    private static bool IsOfBench(JournalEntry entry) =>
        entry
            is BenchRunBegun
                or BenchReadingMarked
                or BenchRunEnded
                or CalibrationIssued
                or RepeatabilityAdopted
                or DiscSetEntered
                or LampBalanceEntered;
}
