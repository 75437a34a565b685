using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Tests.Projection;

public sealed class ExamLogKeeperTests
{
    private static string DataFile(BridgeBench bench) =>
        Directory.GetFiles(Path.Combine(bench.DataFolder, "examlog"), "exams.db").Single();

    private static async Task<(ExamId, PupilBridge.Exams.Assembly.Facts.Exam)> ExamineAndStop(BridgeBench bench)
    {
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        var exam = await bench.WrittenAsync(id);
        Assert.True(await bench.Bridge.StopAsync());
        await bench.Bridge.DisposeAsync();
        return (id, exam);
    }

    [Fact]
    public async Task A_damaged_exam_log_is_moved_aside_and_made_anew_with_the_same_content()
    {
        await using var bench = new BridgeBench();
        var (id, before) = await ExamineAndStop(bench);
        var bytes = File.ReadAllBytes(DataFile(bench));
        for (var i = 0; i < bytes.Length; i += 64)
            bytes[i] ^= 0x55;
        File.WriteAllBytes(DataFile(bench), bytes);

        bench.Open();
        await bench.Live();
        Assert.Equal(before, await bench.WrittenAsync(id));
        Assert.Equal(1, bench.Bridge.ExamLog.Rebuilds);
        Assert.Null(bench.Bridge.ExamLog.Trouble);
        Assert.Contains("aside", bench.Bridge.ExamLog.MovedAside, StringComparison.Ordinal);
        Assert.True(Directory.Exists(bench.Bridge.ExamLog.MovedAside));
    }

    /// <summary>A start does not read the whole file; whoever meets the damage later has the exam log made anew.</summary>
    [Fact]
    public async Task An_exam_log_that_rots_under_a_running_service_is_made_anew_when_it_is_met()
    {
        await using var bench = new BridgeBench();
        var (id, before) = await ExamineAndStop(bench);
        bench.Open();
        await bench.Live();
        using (var file = new FileStream(DataFile(bench), FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite))
        {
            for (var at = 8192 + 4000; at < file.Length; at += 8192)
            {
                file.Position = at;
                file.Write([0xA5, 0x5A, 0xA5]);
            }
        }

        Assert.Equal(before, await bench.WrittenAsync(id));
        Assert.Equal(1, bench.Bridge.ExamLog.Rebuilds);
    }

    [Fact]
    public async Task An_exam_log_that_is_gone_is_made_anew()
    {
        await using var bench = new BridgeBench();
        var (id, before) = await ExamineAndStop(bench);
        Directory.Delete(Path.Combine(bench.DataFolder, "examlog"), recursive: true);
        bench.Open();
        await bench.Live();
        Assert.Equal(before, await bench.WrittenAsync(id));
    }

    [Fact]
    public async Task An_exam_log_that_was_open_when_the_machine_went_down_is_made_anew()
    {
        await using var bench = new BridgeBench();
        var (id, before) = await ExamineAndStop(bench);
        File.WriteAllText(Path.Combine(bench.DataFolder, "examlog", "state"), "open under another run of the system\n");
        bench.Open();
        await bench.Live();
        Assert.Equal(before, await bench.WrittenAsync(id));
        Assert.Equal(1, bench.Bridge.ExamLog.Rebuilds);
    }

    [Fact]
    public async Task The_exam_log_catches_up_with_the_journal_and_says_how_far_behind_it_is()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var id = await bench.ExamineAsync("Q-1001");
        await bench.WrittenAsync(id);
        await Eventually.Is(() => bench.Bridge.Health.ExamLogLag == 0, () => bench.Bridge.Health.ToString());
        Assert.True(bench.Bridge.Health.CanRecord);
    }

    [Fact]
    public async Task A_stored_exam_reads_back_as_it_was_with_equal_bytes()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        var exam = await bench.WrittenAsync(await bench.ExamineAsync("Q-1001"));
        var bytes = PupilBridge.Worker.Projection.ExamJson.Write(exam);
        var again = PupilBridge.Worker.Projection.ExamJson.Read(bytes);
        Assert.Equal(exam, again);
        Assert.Equal(bytes, PupilBridge.Worker.Projection.ExamJson.Write(again));
    }
}
