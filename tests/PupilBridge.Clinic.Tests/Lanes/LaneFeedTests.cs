using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneFeedTests : IDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);
    private readonly LaneScene lane = new(InstrumentAbilities.None, backlog: 16);
    private readonly CancellationTokenSource end = new(Deadline);

    [Fact]
    public async Task First_comes_the_present_state_then_each_change()
    {
        await using var boards = Boards();
        Assert.Null((await NextAsync(boards)).Exam);

        lane.Slide(Eye.Right, 4_000);
        var slid = await NextAsync(boards);
        Assert.Equal((4_000, null), (slid.Right.PositionMicrometres, slid.Exam));

        var exam = await lane.Clinic.OpenAsync();
        Assert.Equal(exam, (await NextAsync(boards)).Exam!.Exam);
    }

    [Fact]
    public async Task What_did_not_change_is_the_same_object_and_what_shows_nothing_new_is_not_told()
    {
        await lane.Clinic.OpenAsync();
        await using var boards = Boards();
        var first = await NextAsync(boards);

        lane.Show(live => live with { HeardAt = live.HeardAt.AddSeconds(1) });
        lane.Slide(Eye.Right, 4_000);
        var second = await NextAsync(boards);

        Assert.Equal(4_000, second.Right.PositionMicrometres);
        Assert.Same(first.Exam, second.Exam);
        Assert.Same(first.Before, second.Before);
    }

    [Fact]
    public async Task A_slow_viewer_sees_fewer_steps_never_an_older_one_and_ends_at_the_newest()
    {
        await using var boards = Boards();
        await NextAsync(boards);
        lane.Slide(Eye.Right, 0);

        for (var position = 1; position <= 500; position++)
        {
            lane.Slide(Eye.Right, position);
        }

        var (seen, count) = (-1, 0);
        while (seen < 500)
        {
            var now = (await NextAsync(boards)).Right.PositionMicrometres!.Value;
            Assert.True(now > seen, $"{now} came after {seen}");
            (seen, count) = (now, count + 1);
        }

        Assert.InRange(count, 1, 20);
        Assert.Equal(1, lane.Clinic.House.Dropped);
        var exam = await lane.Clinic.OpenAsync();
        Assert.Equal(exam, (await NextAsync(boards)).Exam!.Exam);
    }

    [Fact]
    public async Task Another_instruments_changes_are_not_shown()
    {
        await using var boards = Boards();
        await NextAsync(boards);

        lane.Clinic.House.Show(lane.Live with { Serial = new SerialNumber("QB-0002"), BatteryPercent = 3 });
        lane.Slide(Eye.Left, 77);

        var board = await NextAsync(boards);
        Assert.Equal((77, null), (board.Left.PositionMicrometres, board.BatteryPercent));
    }

    [Fact]
    public async Task An_instrument_that_is_not_known_yet_is_waited_for()
    {
        await using var boards = lane.Desk.WatchLaneAsync("QB-0002", end.Token).GetAsyncEnumerator(end.Token);
        var waiting = boards.MoveNextAsync().AsTask();
        lane.Slide(Eye.Right, 4_000);
        Assert.False(waiting.IsCompleted);

        lane.Clinic.House.Show(lane.Live with { Serial = new SerialNumber("QB-0002") });

        Assert.True(await waiting.WaitAsync(Deadline));
        Assert.Equal("QB-0002", boards.Current.Instrument);
    }

    [Fact]
    public async Task A_patients_details_are_shown_as_soon_as_they_are_recorded()
    {
        await lane.Clinic.OpenAsync();
        await using var boards = Boards();
        Assert.Null((await NextAsync(boards)).Exam!.Patient!.Name);

        await lane.EnterAsync(lane.Clinic.Patient("Q-1001", "A. Pilot"));

        Assert.Equal("A. Pilot", (await NextAsync(boards)).Exam!.Patient!.Name);
    }

    [Fact]
    public async Task The_exam_before_is_followed_too()
    {
        var first = await lane.Clinic.OpenAsync();
        await lane.Clinic.OpenAsync("Q-1002");
        await using var boards = Boards();
        Assert.Equal(first, (await NextAsync(boards)).Before!.Exam);

        await lane.EnterAsync(lane.Clinic.SettingAside(first, "begun by mistake"));

        Assert.Null((await NextAsync(boards)).Before);
    }

    [Fact]
    public async Task A_viewer_who_goes_is_forgotten_and_a_serial_that_can_be_none_is_refused()
    {
        await using (var boards = Boards())
        {
            await NextAsync(boards);
            Assert.Equal(1, lane.Clinic.House.Viewers);
        }

        Assert.Equal(0, lane.Clinic.House.Viewers);
        Assert.Throws<EntryProblemException>(() => lane.Desk.WatchLaneAsync("no serial!", default));
    }

    public void Dispose()
    {
        end.Dispose();
        lane.Dispose();
    }

    private IAsyncEnumerator<LaneBoard> Boards() =>
        lane.Desk.WatchLaneAsync(Support.Clinic.Serial, end.Token).GetAsyncEnumerator(end.Token);

    private static async Task<LaneBoard> NextAsync(IAsyncEnumerator<LaneBoard> boards)
    {
        Assert.True(await boards.MoveNextAsync().AsTask().WaitAsync(Deadline));
        return boards.Current;
    }
}
