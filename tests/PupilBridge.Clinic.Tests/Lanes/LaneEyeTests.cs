using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LaneEyeTests : IDisposable
{
    private readonly LaneScene marking = new();
    private readonly LaneScene sliding = new(InstrumentAbilities.None);

    [Fact]
    public async Task Without_mark_keys_a_sliding_scale_shows_the_diameter_from_home()
    {
        // The scripted scale's home is 0 and it counts towards the temple.
        sliding.Slide(Eye.Right, 4_350);

        var board = await sliding.LookAsync();

        Assert.Equal(
            (4_350, true, 4.35),
            (board.Right.PositionMicrometres, board.Right.IsMoving, board.Right.LiveMillimetres)
        );
        Assert.Equal(
            (null, false, null),
            (board.Left.PositionMicrometres, board.Left.IsMoving, board.Left.LiveMillimetres)
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(499)]
    [InlineData(12_001)]
    [InlineData(-4_000)]
    public async Task A_position_that_can_be_no_pupil_gives_no_diameter(int micrometres)
    {
        sliding.Slide(Eye.Right, micrometres);

        Assert.Null((await sliding.LookAsync()).Right.LiveMillimetres);
    }

    [Theory]
    [InlineData(PupilEdge.Nasal, 5_000, 9_200)]
    [InlineData(PupilEdge.Temporal, 9_200, 5_000)]
    public async Task With_mark_keys_it_shows_the_diameter_from_the_edge_that_is_marked(
        PupilEdge edge,
        int marked,
        int position
    )
    {
        await marking.Clinic.OpenAsync();
        marking.Clinic.House.Add(marking.Instrument.Dial(InstrumentMode.Measure));
        marking.Slide(Eye.Left, position);
        Assert.Null((await marking.LookAsync()).Left.LiveMillimetres);

        marking.Clinic.House.Add(marking.Instrument.Edge(Eye.Left, edge, marked));

        Assert.Equal(4.2, (await marking.LookAsync()).Left.LiveMillimetres!.Value, 6);
    }

    [Fact]
    public async Task Where_a_size_would_not_be_taken_none_is_shown()
    {
        sliding.Slide(Eye.Right, 4_350);
        sliding.Show(live => live with { Lamps = live.Lamps.With(Eye.Left, Lit(live)) });
        Assert.Null((await sliding.LookAsync()).Right.LiveMillimetres);

        sliding.Show(live => live with { Lamps = live.Lamps.With(Eye.Left, LiveLamp.NotSeen) });
        Assert.NotNull((await sliding.LookAsync()).Right.LiveMillimetres);
        sliding.Show(live => live with { Mode = Mode(live, InstrumentMode.Hold, Block.Direct) });
        Assert.Null((await sliding.LookAsync()).Right.LiveMillimetres);
    }

    [Theory]
    [InlineData(Block.Direct, 1000)]
    [InlineData(Block.SwingShort, 1000)]
    [InlineData(Block.SwingLong, 3000)]
    [InlineData(Block.Near, null)]
    public async Task The_lit_eye_tells_since_when_and_how_long_the_profile_wants_it(Block block, int? wanted)
    {
        marking.Show(live =>
            live with
            {
                Mode = Mode(live, InstrumentMode.Sequence, block),
                Lamps = live.Lamps.With(Eye.Right, Lit(live)),
            }
        );

        var board = await marking.LookAsync();

        Assert.Equal((true, marking.Live.HeardAt), (board.Right.IsLit, board.Right.LitSince));
        Assert.Equal(wanted, board.Right.DwellWantedMilliseconds);
        Assert.Equal((false, null, null), (board.Left.IsLit, board.Left.LitSince, board.Left.DwellWantedMilliseconds));
    }

    [Fact]
    public async Task Time_in_the_dark_runs_from_the_dim_room_and_anew_from_each_light_going_off()
    {
        var exam = await marking.Clinic.OpenAsync();
        Assert.Null((await marking.LookAsync()).Right.DarkSince);
        await marking.EnterAsync(marking.Clinic.Light(exam, "dim"));
        Assert.Equal(marking.Instrument.Now, (await marking.LookAsync()).Right.DarkSince);

        marking.Show(live => live with { Lamps = live.Lamps.With(Eye.Left, Lit(live)) });
        var lit = await marking.LookAsync();
        Assert.Equal((null, null), (lit.Right.DarkSince, lit.Left.DarkSince));

        marking.Show(live => live with { Lamps = live.Lamps.With(Eye.Left, LiveLamp.NotSeen) });
        marking.Clinic.House.Add(marking.Instrument.Light(Eye.Left, 1000, 3000));
        var dark = await marking.LookAsync();
        Assert.Equal((marking.Instrument.Now, marking.Instrument.Now), (dark.Right.DarkSince, dark.Left.DarkSince));
        Assert.Equal(20_000, dark.Right.DarkSettledAfterMilliseconds);
    }

    public void Dispose()
    {
        marking.Dispose();
        sliding.Dispose();
    }

    private static LiveLamp Lit(LiveInstrument live) => new(true, 80, default, live.HeardAt, null);

    private static LiveMode Mode(LiveInstrument live, InstrumentMode mode, Block block) =>
        new(mode, block, ModeCause.Dial, live.HeardAt);
}
