using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>One measuring scale: moved by a hand, it tells where it is while it moves, and where it came to rest.</summary>
/// <param name="eye">The eye whose scale it is.</param>
/// <param name="description">How it is built.</param>
/// <param name="error">How it misreads.</param>
internal sealed class SlidingScale(Eye eye, ScaleDescription description, ScaleError error)
{
    /// <summary>A scale rests when it has not moved for this long; our choice.</summary>
    public static readonly TimeSpan RestTime = TimeSpan.FromMilliseconds(300);

    /// <summary>At most 25 live positions a second.</summary>
    private static readonly TimeSpan LiveInterval = TimeSpan.FromMilliseconds(40);

    private double position = description.Home.Value;
    private double target = description.Home.Value;
    private double micrometresPerSecond;
    private TimeSpan stillFor;
    private TimeSpan sinceLive = LiveInterval;
    private bool restTold = true;

    /// <summary>Whether something holds it fast.</summary>
    public bool IsStuck { get; set; }

    /// <summary>Whether a hand moves it at present.</summary>
    public bool IsMoving => !IsStuck && !position.Equals(target);

    /// <summary>Whether it stands still and has told where: nothing comes of it until a hand moves it.</summary>
    public bool IsSettled => !IsMoving && restTold;

    /// <summary>Where it tells that it is, in steps of its resolution.</summary>
    public Micrometres Position => Told(error.OffsetMillimetres);

    /// <summary>
    /// Where it tells that an edge is. What a scale misreads of a distance falls on its two edges alike, one to either side, so that the
    /// distance between two marks is off by the whole of it.
    /// </summary>
    /// <param name="edge">Which edge is marked.</param>
    public Micrometres Marked(PupilEdge edge) =>
        Told(error.OffsetMillimetres * (edge == PupilEdge.Temporal ? 0.5 : -0.5));

    public void SlideTo(double micrometres, double speedMicrometresPerSecond)
    {
        target = Math.Clamp(micrometres, description.Lowest.Value, description.Highest.Value);
        micrometresPerSecond = speedMicrometresPerSecond;
    }

    public void Advance(TimeSpan time, Tick now, IBodyListener listener)
    {
        sinceLive += time;
        if (IsMoving)
        {
            Move(time, now, listener);
            return;
        }

        target = position;
        stillFor += time;
        if (!restTold && stillFor >= RestTime)
        {
            restTold = true;
            listener.Happened(InstrumentEvent.ScaleAtRest(now, eye, Position));
        }
    }

    private Micrometres Told(double offsetMillimetres)
    {
        var step = description.Resolution.Value;
        var rounded = (int)Math.Round(Misread(offsetMillimetres) / step, MidpointRounding.AwayFromZero) * step;
        return new(Math.Clamp(rounded, description.Lowest.Value, description.Highest.Value));
    }

    // At home every scale tells home: that is where it is set to.
    private double Misread(double offsetMillimetres)
    {
        var away = position - description.Home.Value;
        var outward = description.Direction == ScaleDirection.Temporal ? 1 : -1;
        return error == ScaleError.None || away.Equals(0)
            ? position
            : description.Home.Value + (error.Gain * away) + (outward * 1000 * offsetMillimetres);
    }

    private void Move(TimeSpan time, Tick now, IBodyListener listener)
    {
        var reach = micrometresPerSecond * time.TotalSeconds;
        position = Math.Abs(target - position) <= reach ? target : position + (reach * Math.Sign(target - position));
        restTold = false;
        stillFor = TimeSpan.Zero;
        if (sinceLive >= LiveInterval)
        {
            sinceLive = TimeSpan.Zero;
            listener.Moved(new LivePosition(eye, Position, now));
        }
    }
}
