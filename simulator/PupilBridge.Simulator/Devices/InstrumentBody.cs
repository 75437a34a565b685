using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>
/// Everything of the instrument but its link: dial, lamps, scales, keys, sensors. Hands act on it; it tells its listener
/// what happens. Its time goes in steps of one millisecond.
/// </summary>
internal sealed class InstrumentBody
{
    /// <summary>The time from one stop of the dial to the next when a hand turns it; our choice.</summary>
    public static readonly TimeSpan TurnTime = TimeSpan.FromMilliseconds(120);

    /// <summary>In a room brighter than this the light switch stands at bright; our choice.</summary>
    public const double BrightRoomLux = 50;

    private static readonly TimeSpan Millisecond = TimeSpan.FromMilliseconds(1);

    private readonly InstrumentModel model;
    private readonly PerEye<ScaleError> errors;
    private readonly LampMeter meter;
    private readonly IBodyListener listener;
    private BlockRunner runner;
    private PerEye<SlidingScale> scales;
    private int stop;
    private int turnTo;
    private TimeSpan turning;
    private TimeSpan owed;
    private double toldMillilux = double.NaN;

    public InstrumentBody(InstrumentModel model, PerEye<ScaleError> errors, LampMeter meter, IBodyListener listener)
    {
        this.model = model;
        this.errors = errors;
        this.meter = meter;
        this.listener = listener;
        runner = new BlockRunner(model);
        scales = NewScales();
        stop = turnTo = IdleStop;
    }

    public TickClock Clock { get; } = new();

    public Eye? Lit => runner.Lit;

    public int LampPercent => model.LampPercent;

    public InstrumentMode Mode => runner.Mode;

    public Block Block => runner.Block;

    public bool ReachedCount => runner.ReachedCount;

    public bool IsThrough => runner.IsThrough;

    public bool IsTurning => stop != turnTo;

    public double RoomLux { get; private set; } = 300;

    public bool NearTarget { get; private set; }

    public bool LensIn { get; private set; }

    public SlidingScale Scale(Eye eye) => scales[eye];

    /// <summary>Starts anew, as after switching on: the dial is where hands left it, the scales are at home.</summary>
    public void PowerUp()
    {
        Clock.Restart();
        runner = new BlockRunner(model);
        scales = NewScales();
        stop = turnTo;
        toldMillilux = double.NaN;
        meter.Restart();
        runner.DialAt(model.Stops[stop], Clock.Now, listener);
        TellRoom();
        TellFixation();
    }

    public void PowerDown() => runner.Stop(Clock.Now, listener);

    public void TurnDialTo(DialStop target) => turnTo = target.Index - 1;

    public void SetRoom(double lux)
    {
        RoomLux = lux;
        TellRoom();
    }

    public void Fixate(bool near)
    {
        if (near != NearTarget)
        {
            NearTarget = near;
            TellFixation();
        }
    }

    public void MoveLens(bool isIn)
    {
        LensIn = isIn;
        if (model.Can(InstrumentAbilities.ViewingLens))
        {
            listener.Happened(InstrumentEvent.LensMoved(Clock.Now, isIn));
        }
    }

    /// <summary>Presses a mark key. An instrument without them does nothing.</summary>
    public void PressMark(Eye eye, PupilEdge edge)
    {
        if (model.Can(InstrumentAbilities.MarkKeys))
        {
            listener.Happened(InstrumentEvent.EdgeMarked(Clock.Now, eye, edge, scales[eye].Marked(edge)));
        }
    }

    /// <summary>Tells the state of the room over again, a sensor's reading a little other at each second time.</summary>
    public void ChatterRoom(int time)
    {
        toldMillilux = double.NaN;
        TellRoom(flicker: time % 2 == 0 ? 1 : 1.05);
    }

    public void SetTrain(Block block, StimulusTrain train) => runner.SetTrain(block, train);

    public void Tell(in InstrumentEvent happened) => listener.Happened(happened);

    public void Advance(TimeSpan time)
    {
        for (owed += time; owed >= Millisecond; )
        {
            var whole = TimeSpan.FromMilliseconds(Math.Floor(owed.TotalMilliseconds));
            var step = QuietFor(whole) is var quiet && quiet > Millisecond ? quiet : Millisecond;
            owed -= step;
            Clock.Advance(step);
            TurnOn();
            ReadLamp();
            runner.Advance(Clock.Now, listener);
            scales.Right.Advance(step, Clock.Now, listener);
            scales.Left.Advance(step, Clock.Now, listener);
        }
    }

    /// <summary>For how long surely nothing happens of itself: then time may be given in one step.</summary>
    /// <param name="most">How much is asked for.</param>
    /// <returns>Whole milliseconds, at most that; zero while something moves.</returns>
    public TimeSpan QuietFor(TimeSpan most)
    {
        if (stop != turnTo || !scales.Right.IsSettled || !scales.Left.IsSettled)
        {
            return TimeSpan.Zero;
        }

        var due = runner.NextDue;
        if (model.Can(InstrumentAbilities.LampMeter) && meter.DueFor(runner.LitSince) is { } reading)
        {
            due = due is { } block && block.Milliseconds < reading.Milliseconds ? block : reading;
        }

        if (due is not { } next)
        {
            return most;
        }

        // The clock may run a little fast: a hundredth is left to be walked.
        var quiet = Math.Floor((next.Milliseconds - Clock.Now.Milliseconds - 1) * 0.99);
        return quiet <= 0 ? TimeSpan.Zero
            : quiet < most.TotalMilliseconds ? TimeSpan.FromMilliseconds(quiet)
            : most;
    }

    private void ReadLamp()
    {
        if (model.Can(InstrumentAbilities.LampMeter))
        {
            meter.Advance(runner.Lit, runner.LitSince, model.LampPercent, Clock.Now, listener);
        }
    }

    private int IdleStop => (model.Stop(InstrumentMode.Idle)?.Index ?? 1) - 1;

    private void TurnOn()
    {
        if (stop == turnTo)
        {
            turning = TimeSpan.Zero;
            return;
        }

        turning += Millisecond;
        if (turning >= TurnTime)
        {
            turning = TimeSpan.Zero;
            stop += Math.Sign(turnTo - stop);
            runner.DialAt(model.Stops[stop], Clock.Now, listener);
        }
    }

    private void TellRoom(double flicker = 1)
    {
        if (model.Can(InstrumentAbilities.LightSensor))
        {
            // Told again when it has changed by a tenth.
            var millilux = Math.Min(RoomLux * flicker * 1000, 999_999_999);
            if (double.IsNaN(toldMillilux) || Math.Abs(millilux - toldMillilux) > 0.1 * toldMillilux)
            {
                toldMillilux = millilux;
                listener.Happened(InstrumentEvent.RoomMeasured(Clock.Now, (int)millilux));
            }
        }
        else if (model.Can(InstrumentAbilities.LightSwitch))
        {
            var level = RoomLux >= BrightRoomLux ? RoomLightLevel.Bright : RoomLightLevel.Dim;
            listener.Happened(InstrumentEvent.RoomSwitched(Clock.Now, level));
        }
    }

    private void TellFixation()
    {
        if (model.Can(InstrumentAbilities.Fixation))
        {
            var distance = NearTarget ? FixationDistance.Near : FixationDistance.Far;
            listener.Happened(InstrumentEvent.FixationChanged(Clock.Now, distance));
        }
    }

    private PerEye<SlidingScale> NewScales() =>
        model.Scales.Select((eye, scale) => new SlidingScale(eye, scale, errors[eye]));
}
