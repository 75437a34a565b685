namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneBeforeTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Fact]
    public async Task The_next_patient_begun_without_closing_the_last_leaves_the_last_in_sight()
    {
        var first = await lane.WithEverythingShownAsync();

        var second = await lane.Clinic.OpenAsync("Q-1002");
        var board = await lane.LookAsync();

        Assert.Equal(second, board.Exam!.Exam);
        Assert.Equal((first, "Q-1001", "open"), (board.Before!.Exam, board.Before.Patient, board.Before.Status));
        Assert.Contains("begun before it was closed", board.Before.Words, StringComparison.Ordinal);
        Assert.Contains("Shape", board.Before.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_was_complete_and_never_made_ready_is_told_as_such()
    {
        var first = await lane.WithEverythingShownAsync();
        await JudgeAllAsync(first);

        await lane.Clinic.OpenAsync("Q-1002");

        Assert.Contains(
            "complete and not ready for review yet",
            (await lane.LookAsync()).Before!.Words,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task One_that_was_made_ready_with_something_left_out_is_told_and_a_late_answer_ends_that()
    {
        var first = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(
            first,
            "shape OD round",
            "shape OS round",
            "direct OD 3",
            "direct OS 3",
            "swing short alike"
        );
        await ReadyAsync(first);
        var board = await lane.LookAsync();
        Assert.Equal(("ready-for-review", null), (board.Before!.Status, board.Exam));
        Assert.Contains("Swinging, long dwell", board.Before.Words, StringComparison.Ordinal);

        await lane.JudgeAsync(first, "swing long alike");

        Assert.Null((await lane.LookAsync()).Before);
    }

    [Fact]
    public async Task What_was_accepted_as_not_examined_is_never_called_complete()
    {
        var first = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(
            first,
            "shape OD round",
            "shape OS round",
            "direct OD 3",
            "direct OS 3",
            "swing short alike"
        );
        await lane.EnterAsync(lane.Clinic.NotExamined(first, ["swing-long"]));
        await ReadyAsync(first);

        var words = (await lane.LookAsync()).Before!.Words;

        Assert.Contains("Accepted as not examined: Swinging, long dwell", words, StringComparison.Ordinal);
        Assert.DoesNotContain("complete", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_is_ready_and_complete_needs_no_telling()
    {
        var first = await lane.WithEverythingShownAsync();
        await JudgeAllAsync(first);
        await ReadyAsync(first);

        Assert.Null((await lane.LookAsync()).Before);
    }

    [Fact]
    public async Task Switching_off_in_mid_exam_leaves_it_in_sight()
    {
        await lane.WithEverythingShownAsync();
        lane.Clinic.House.Add(lane.Instrument.SwitchOff());

        var board = await lane.LookAsync();

        Assert.Null(board.Exam);
        Assert.StartsWith("The instrument was switched off.", board.Before!.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_poor_response_is_told_before_drops_on_the_exam_and_after_it_was_made_ready()
    {
        var first = await lane.WithEverythingShownAsync();
        Assert.Empty((await lane.ExamAsync()).BeforeDrops);
        await lane.JudgeAsync(first, "direct OD 3", "direct OS 1");
        Assert.Contains(
            (await lane.ExamAsync()).BeforeDrops,
            reason => reason.Contains("OS (left)", StringComparison.Ordinal)
        );

        await lane.JudgeAsync(first, "shape OD round", "shape OS round", "swing short alike", "swing long alike");
        await ReadyAsync(first);
        await lane.Clinic.OpenAsync("Q-1002");
        var board = await lane.LookAsync();

        Assert.Empty(board.Exam!.BeforeDrops);
        Assert.Contains(board.Before!.BeforeDrops, reason => reason.Contains("OS (left)", StringComparison.Ordinal));
    }

    public void Dispose() => lane.Dispose();

    private Task JudgeAllAsync(long exam) =>
        lane.JudgeAsync(
            exam,
            "shape OD round",
            "shape OS round",
            "direct OD 3",
            "direct OS 3",
            "swing short alike",
            "swing long alike"
        );

    private Task ReadyAsync(long exam) => lane.EnterAsync(lane.Clinic.Ready(exam));
}
