using CsCheck;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Rebuild;

public class ExamLogRebuilderTests
{
    [Fact]
    public void A_rebuild_has_the_content_of_the_exam_log_that_grew_with_the_journal() =>
        Gen.Select(Gen.Int[0, 100_000], Gen.Int[1, 25])
            .Sample(
                (seed, stretches) =>
                {
                    using var data = new DataFolder();
                    using var grown = ExamLogStore.Open(data.Path, new ExamLogOptions { CheckpointBytes = 40_000 });
                    foreach (var (upTo, changes) in Samples.Stream(seed, stretches))
                    {
                        grown.Apply(upTo, changes);
                    }

                    using var rebuilder = ExamLogRebuilder.Begin(data.Path);
                    foreach (var (upTo, changes) in Samples.Stream(seed, stretches))
                    {
                        rebuilder.Store.Apply(upTo, changes);
                    }

                    var expected = grown.Verify();
                    grown.Dispose();
                    Assert.Equal(expected, rebuilder.Finish("test").Digest);
                },
                iter: 12,
                threads: 1
            );

    [Fact]
    public void The_old_exam_log_goes_on_being_read_until_the_new_one_is_done()
    {
        using var data = new DataFolder();
        using var old = ExamLogStore.Open(data.Path);
        old.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        using var rebuilder = ExamLogRebuilder.Begin(data.Path);
        rebuilder.Store.Apply(2, new ExamLogChanges { Exams = [Samples.Exam(1), Samples.Exam(2)] });

        Assert.Single(old.ListExams(new ExamQuery()).Items);

        old.Dispose();
        var rebuilt = rebuilder.Finish("of an older version");
        using var now = ExamLogStore.Open(data.Path);
        Assert.Equal(2, now.ListExams(new ExamQuery()).Items.Count);
        Assert.Equal(2, rebuilt.LastApplied);
        Assert.Contains(
            "older version",
            File.ReadAllText(Path.Combine(rebuilt.OldFiles!, "why-moved-aside.txt")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void An_unfinished_rebuild_leaves_the_old_exam_log_alone()
    {
        using var data = new DataFolder();
        using (var old = ExamLogStore.Open(data.Path))
        {
            old.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        }

        using (var rebuilder = ExamLogRebuilder.Begin(data.Path))
        {
            rebuilder.Store.Apply(9, new ExamLogChanges { Exams = [Samples.Exam(2)] });
        }

        using var still = ExamLogStore.Open(data.Path);
        Assert.Equal(1, still.LastApplied);
        Assert.Equal(["examlog"], Directory.EnumerateDirectories(data.Path).Select(Path.GetFileName));
    }

    [Fact]
    public void A_process_that_dies_during_a_rebuild_leaves_the_old_exam_log_in_use()
    {
        using var data = new DataFolder();
        using (var old = ExamLogStore.Open(data.Path))
        {
            old.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        }

        using var rebuilder = ExamLogRebuilder.Begin(data.Path);
        rebuilder.Store.Apply(9, new ExamLogChanges { Exams = [Samples.Exam(2)] });
        using var left = data.Copy();

        using var still = ExamLogStore.Open(left.Path);
        Assert.Equal(1, still.LastApplied);
    }

    [Fact]
    public void A_process_that_dies_between_the_two_renames_is_finished_at_the_next_start()
    {
        using var data = new DataFolder();
        using (var rebuilder = ExamLogRebuilder.Begin(data.Path))
        {
            rebuilder.Store.Apply(9, new ExamLogChanges { Exams = [Samples.Exam(2)] });
            rebuilder.Finish("test");
        }

        // As it lies between the two renames: the old one is aside, the new one not yet in its place.
        var folder = Path.Combine(data.Path, "examlog");
        File.WriteAllText(Path.Combine(folder, "state"), "built to the end".PadRight(80) + "\n");
        Directory.Move(folder, Path.Combine(data.Path, "examlog.rebuild"));

        using var store = ExamLogStore.Open(data.Path, new ExamLogOptions { SystemRun = "another" });
        Assert.Equal(9, store.LastApplied);
    }

    [Theory]
    [InlineData(ExamLogStore.ProjectionVersion + 1, ExamLogTrouble.NewerVersion)]
    [InlineData(ExamLogStore.ProjectionVersion - 1, ExamLogTrouble.OlderVersion)]
    public void An_exam_log_of_another_version_is_refused_and_can_be_built_anew(int version, ExamLogTrouble trouble)
    {
        using var data = new DataFolder();
        using (var old = ExamLogStore.Open(data.Path))
        {
            old.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        }

        OtherVersion.Write(data.Path, version);
        var refused = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path));
        Assert.Equal(trouble, refused.Trouble);
        Assert.Contains($"projection {version}", refused.Message, StringComparison.Ordinal);

        using (var rebuilder = ExamLogRebuilder.Begin(data.Path))
        {
            rebuilder.Store.Apply(1, new ExamLogChanges { Exams = [Samples.Exam(1)] });
            rebuilder.Finish(refused.Trouble.ToString());
        }

        using var store = ExamLogStore.Open(data.Path);
        Assert.NotNull(store.FindExam(Samples.Exam(1).Id));
    }
}
