using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Live;

public sealed class LaneWatchTests : IDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(30);
    private readonly Support.Clinic clinic = new(backlog: 16);
    private readonly CancellationTokenSource end = new(Deadline);

    [Fact]
    public async Task First_comes_the_present_state_then_each_change()
    {
        await using var lanes = clinic.Desk.WatchAsync(null, end.Token).GetAsyncEnumerator();

        var first = await NextAsync(lanes);
        Assert.Equal(
            (Support.Clinic.Serial, "Quay-A", null),
            (first.Instrument.Instrument, first.Instrument.Model, first.Exam)
        );

        var exam = await clinic.OpenAsync();
        var second = await NextAsync(lanes);
        Assert.Equal(exam, second.Exam!.Exam);
        Assert.NotEmpty(second.AskedFor!.Steps);
    }

    [Fact]
    public async Task A_live_position_is_shown_at_once_and_marked_as_not_recorded()
    {
        await using var lanes = clinic.Desk.WatchAsync(Support.Clinic.Serial, end.Token).GetAsyncEnumerator();
        await NextAsync(lanes);

        clinic.House.Show(At(12_340));
        var lane = await NextAsync(lanes);

        Assert.Equal(
            (12_340, true, false),
            (lane.Live.Right.PositionMicrometres!.Value, lane.Live.Right.IsMoving, lane.Live.Right.IsRecorded)
        );
        Assert.Equal("connected", lane.Instrument.Line);
    }

    [Fact]
    public async Task Another_instruments_changes_are_not_shown_where_one_was_asked_for()
    {
        await using var lanes = clinic.Desk.WatchAsync(Support.Clinic.Serial, end.Token).GetAsyncEnumerator();
        await NextAsync(lanes);

        clinic.House.Show(At(1, "QB-0002"));
        clinic.House.Show(At(2));

        Assert.Equal(2, (await NextAsync(lanes)).Live.Right.PositionMicrometres);
    }

    [Fact]
    public async Task A_slow_viewer_sees_fewer_steps_and_then_the_newest_state_and_delays_nobody()
    {
        await using var slow = clinic.Desk.WatchAsync(null, end.Token).GetAsyncEnumerator();
        await NextAsync(slow);
        clinic.House.Show(At(0));
        await NextAsync(slow);

        // Far more than the backlog, while the viewer looks at nothing.
        for (var position = 1; position <= 500; position++)
        {
            clinic.House.Show(At(position));
        }

        Assert.Equal(1, clinic.House.Dropped);
        Assert.Equal(500, (await NextAsync(slow)).Live.Right.PositionMicrometres);
        clinic.House.Show(At(501));
        var last = 500;
        while (last < 501)
        {
            var seen = (await NextAsync(slow)).Live.Right.PositionMicrometres!.Value;
            Assert.True(seen >= last, $"{seen} came after {last}");
            last = seen;
        }
    }

    [Fact]
    public async Task A_viewer_who_goes_is_forgotten()
    {
        await using (var lanes = clinic.Desk.WatchAsync(null, end.Token).GetAsyncEnumerator())
        {
            await NextAsync(lanes);
            Assert.Equal(1, clinic.House.Viewers);
        }

        Assert.Equal(0, clinic.House.Viewers);
    }

    [Fact]
    public async Task Cancelling_ends_the_wait()
    {
        using var stop = new CancellationTokenSource();
        await using var lanes = clinic.Desk.WatchAsync(null, stop.Token).GetAsyncEnumerator();
        await NextAsync(lanes);
        var waiting = lanes.MoveNextAsync().AsTask();

        await stop.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waiting.WaitAsync(Deadline));
        Assert.Equal(0, clinic.House.Viewers);
    }

    public void Dispose()
    {
        end.Dispose();
        clinic.Dispose();
    }

    private static async Task<LaneView> NextAsync(IAsyncEnumerator<LaneView> lanes)
    {
        Assert.True(await lanes.MoveNextAsync().AsTask().WaitAsync(Deadline));
        return lanes.Current;
    }

    private LiveInstrument At(int micrometres, string serial = Support.Clinic.Serial) =>
        new()
        {
            Serial = new SerialNumber(serial),
            Model = "Quay-A",
            Firmware = "1.0",
            Abilities = default,
            Boot = new BootNumber(1),
            Port = "memory:1",
            IsConnected = true,
            HeardAt = clinic.Instrument.Now,
            Scales = new PerEye<LiveScale>
            {
                Right = new LiveScale(new Micrometres(micrometres), true, clinic.Instrument.Now),
                Left = LiveScale.NotSeen,
            },
        };
}
