using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Files;

public class StartTests
{
    private static readonly ExamLogOptions FirstRun = new() { SystemRun = "run-1" };
    private static readonly ExamLogOptions SecondRun = new() { SystemRun = "run-2" };

    [Fact]
    public void After_a_clean_stop_another_run_of_the_system_opens_it()
    {
        using var data = new DataFolder();
        using (var store = ExamLogStore.Open(data.Path, FirstRun))
        {
            store.Apply(4, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        }

        using var again = ExamLogStore.Open(data.Path, SecondRun);
        Assert.Equal(4, again.LastApplied);
    }

    [Fact]
    public void After_a_dead_process_the_same_run_of_the_system_opens_it()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path, FirstRun);
        store.Apply(4, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        using var left = data.Copy();

        using var again = ExamLogStore.Open(left.Path, FirstRun);
        Assert.Equal(4, again.LastApplied);
        Assert.NotNull(again.FindExam(Samples.Exam(1).Id));
    }

    [Fact]
    public void After_a_power_loss_it_is_not_trusted_even_though_it_would_open()
    {
        using var data = new DataFolder();
        using var store = ExamLogStore.Open(data.Path, FirstRun);
        store.Apply(4, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        using var left = data.Copy();

        var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(left.Path, SecondRun));

        Assert.Equal(ExamLogTrouble.PowerLost, broken.Trouble);
        Assert.Contains("journal rebuild", broken.Message, StringComparison.Ordinal);
        Assert.Contains(left.Path, broken.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_the_system_does_not_tell_its_runs_apart_only_a_clean_stop_is_trusted()
    {
        using var data = new DataFolder();
        var unknown = new ExamLogOptions { SystemRun = "unknown" };
        using (var store = ExamLogStore.Open(data.Path, unknown))
        {
            using var left = data.Copy();
            Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(left.Path, unknown));
        }

        ExamLogStore.Open(data.Path, unknown).Dispose();
    }

    [Fact]
    public void Without_its_mark_it_is_not_trusted()
    {
        using var data = new DataFolder();
        ExamLogStore.Open(data.Path).Dispose();
        File.Delete(data.MarkFile);

        var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path));

        Assert.Equal(ExamLogTrouble.PowerLost, broken.Trouble);
    }

    [Fact]
    public void Moving_aside_keeps_the_files_and_the_reason()
    {
        using var data = new DataFolder();
        using (var store = ExamLogStore.Open(data.Path))
        {
            store.Apply(4, new ExamLogChanges { Exams = [Samples.Exam(1)] });
        }

        var first = ExamLogStore.MoveAside(data.Path, "a document did not match", new StoppedClock());
        ExamLogStore.Open(data.Path).Dispose();
        var second = ExamLogStore.MoveAside(data.Path, "again", new StoppedClock());

        Assert.EndsWith("examlog.aside-20260302T073000000Z", first, StringComparison.Ordinal);
        Assert.EndsWith("examlog.aside-20260302T073000000Z-2", second, StringComparison.Ordinal);
        Assert.Contains(
            "did not match",
            File.ReadAllText(Path.Combine(first!, "why-moved-aside.txt")),
            StringComparison.Ordinal
        );
        Assert.True(File.Exists(Path.Combine(first!, "exams.db")));
        using var empty = ExamLogStore.Open(data.Path);
        Assert.Equal(0, empty.LastApplied);
    }

    [Fact]
    public void Where_there_is_no_exam_log_there_is_nothing_to_move()
    {
        using var data = new DataFolder();
        Assert.Null(ExamLogStore.MoveAside(data.Path, "nothing", TimeProvider.System));
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_told_with_its_path()
    {
        using var data = new DataFolder();
        File.WriteAllText(Path.Combine(data.Path, "examlog"), "a file where the folder should be");

        var broken = Assert.Throws<ExamLogBrokenException>(() => ExamLogStore.Open(data.Path));

        Assert.Equal(ExamLogTrouble.Damaged, broken.Trouble);
        Assert.Contains(Path.Combine(data.Path, "examlog"), broken.Message, StringComparison.Ordinal);
    }

    private sealed class StoppedClock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => Samples.Start;
    }
}
