using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>One measuring scale: moved by a hand, it tells where it is while it moves, and where it came to rest.</summary>
/// <param name="eye">The eye whose scale it is.</param>
/// <param name="description">How it is built.</param>
internal sealed class SlidingScale(Eye eye, ScaleDescription description)
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

    /// <summary>Where it is, in steps of its resolution.</summary>
    public Micrometres Position
    {
        get
        {
            var step = description.Resolution.Value;
            var rounded = (int)Math.Round(position / step, MidpointRounding.AwayFromZero) * step;
            return new(Math.Clamp(rounded, description.Lowest.Value, description.Highest.Value));
        }
    }

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
