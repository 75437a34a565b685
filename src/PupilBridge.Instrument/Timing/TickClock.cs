using System.Collections.Immutable;

namespace PupilBridge.Instrument.Timing;

/// <summary>When something happened by the host's clock, as far as the instrument's tick tells.</summary>
/// <param name="At">The best estimate, on the clock of the observations.</param>
/// <param name="UncertaintyMilliseconds">
/// Half the width of the interval in which the true time lies, if the assumptions of <see cref="TickClock"/> hold.
/// </param>
public readonly record struct TickEstimate(DateTimeOffset At, double UncertaintyMilliseconds);

/// <summary>
/// Estimates the time of day of an instrument's ticks from the arrival of its heartbeats: immutable, each observation gives
/// a new clock. One clock is for one boot.
/// </summary>
/// <remarks>
/// <para>
/// A heartbeat carries the tick at which it was made and arrives later, never earlier; the delay varies (adapter, scheduler,
/// other lines before it), but its least values recur. So the arrivals, drawn over the ticks, lie on or above a straight
/// line whose slope is the drift between the two clocks. The line is the edge of the lower convex hull that lies over the
/// middle of the window: of all lines below the points the one with the least sum of distances. Source: S. B. Moon,
/// P. Skelly, D. Towsley, "Estimation and removal of clock skew from network delay measurements", IEEE INFOCOM 1999.
/// </para>
/// <para>
/// The window holds the least delayed observation of each second for the last two minutes. Only heartbeats are given to it:
/// events may come from a backlog. As long as the window is shorter than 10 s the drift is taken as zero, with the
/// uncertainty that stands in for it.
/// </para>
/// <para>
/// The uncertainty is the sum of: the tick's own millisecond; half the least delay that cannot be seen from one side of the
/// line (taken as 16 ms, the time an adapter may hold a short message back, plus the line itself), by which estimates are
/// also moved; the median excess delay of the window; a second while there are fewer than three observations, since the
/// first ones may have waited in a buffer; and the drift's uncertainty times the distance from the window.
/// </para>
/// </remarks>
public sealed class TickClock
{
    /// <summary>The fastest drift that is believed: 500 parts in a million, ten times an ordinary crystal's.</summary>
    public const double MaxDrift = 500e-6;

    /// <summary>
    /// The largest tick that is believed: a hundred years in milliseconds. A larger one is well-formed, but no time of day
    /// can be told from it.
    /// </summary>
    public const long MaxBelievedMilliseconds = 3_155_760_000_000;

    private const int WindowSeconds = 120;
    private const long LeastSpanMilliseconds = 10_000;
    private const double LeastDelayMilliseconds = 16.0 + 7.0;
    private const double NewcomerMilliseconds = 1_000;
    private const double DriftUnknown = 200e-6;
    private const double DriftUncertain = 20e-6;

    private readonly ImmutableArray<Observation> window = [];
    private readonly DateTimeOffset origin;
    private LowerLine? line;

    private TickClock() { }

    private TickClock(DateTimeOffset origin, ImmutableArray<Observation> window) =>
        (this.origin, this.window) = (origin, window);

    /// <summary>A clock that has seen nothing and knows nothing.</summary>
    public static TickClock Unset { get; } = new();

    /// <summary>Whether it can estimate at all.</summary>
    public bool IsSet => !window.IsEmpty;

    /// <summary>How much faster the host's clock runs than the instrument's, as a ratio; 0 as long as it is not known.</summary>
    public double Drift => Line.Slope;

    // Drawn when it is first asked for: heartbeats come each second, and events seldom. Whichever thread draws it, it is the same.
    private LowerLine Line => line ??= window.IsEmpty ? LowerLine.None : LowerLine.Under(window);

    /// <summary>Takes in a heartbeat.</summary>
    /// <param name="tick">The tick that it carries.</param>
    /// <param name="arrived">When it arrived, on a clock that does not jump.</param>
    /// <returns>The clock that knows of it; this one if the tick is beyond belief.</returns>
    public TickClock Observe(Tick tick, DateTimeOffset arrived)
    {
        if (tick.Milliseconds > MaxBelievedMilliseconds)
            return this;
        var zero = window.IsEmpty ? arrived - TimeSpan.FromMilliseconds(tick.Milliseconds) : origin;
        var excess = (arrived - zero).TotalMilliseconds - tick.Milliseconds;
        var now = new Observation(tick.Milliseconds, excess);
        var kept = window;
        if (kept.IsEmpty || now.Tick / 1000 > kept[^1].Tick / 1000)
        {
            kept = kept.Add(now);
            if (kept.Length > WindowSeconds)
                kept = kept.RemoveAt(0);
        }
        else if (now.Tick / 1000 == kept[^1].Tick / 1000 && now.Excess < kept[^1].Excess)
        {
            kept = kept.SetItem(kept.Length - 1, now);
        }

        return kept == window ? this : new TickClock(zero, kept);
    }

    /// <summary>The time of a tick.</summary>
    /// <param name="tick">Any tick of the boot.</param>
    /// <returns>The estimate, or null if nothing was observed yet or the tick is beyond belief.</returns>
    public TickEstimate? Estimate(Tick tick)
    {
        if (!IsSet || tick.Milliseconds > MaxBelievedMilliseconds)
            return null;
        var at = tick.Milliseconds + Line.At(tick.Milliseconds) - (LeastDelayMilliseconds / 2);
        var span = window[^1].Tick - window[0].Tick;
        var outside = Math.Max(0, Math.Max(window[0].Tick - tick.Milliseconds, tick.Milliseconds - window[^1].Tick));
        var drift = span < LeastSpanMilliseconds ? DriftUnknown : DriftUncertain;
        var uncertainty =
            1
            + (LeastDelayMilliseconds / 2)
            + Line.MedianAbove
            + (drift * (outside + (window.Length < 2 ? 0 : span / 2)));
        if (window.Length < 3)
            uncertainty += NewcomerMilliseconds;
        return new TickEstimate(origin.AddTicks((long)(at * TimeSpan.TicksPerMillisecond)), uncertainty);
    }

    /// <summary>One arrival: its tick, and by how much it was later than the first observation's clock says.</summary>
    internal readonly record struct Observation(long Tick, double Excess);

    /// <summary>The straight line below all observations.</summary>
    internal sealed record LowerLine(double Offset, double Slope, double MedianAbove)
    {
        internal static LowerLine None { get; } = new(0, 0, 0);

        internal double At(double tick) => Offset + (Slope * tick);

        internal static LowerLine Under(ImmutableArray<Observation> points)
        {
            var (offset, slope) =
                points[^1].Tick - points[0].Tick < LeastSpanMilliseconds ? Flat(points) : HullEdge(points);
            var above = points.Select(p => p.Excess - offset - (slope * p.Tick)).Order().ToArray();
            return new LowerLine(offset, slope, Math.Max(0, above[above.Length / 2]));
        }

        private static (double Offset, double Slope) Flat(ImmutableArray<Observation> points) =>
            (points.Min(p => p.Excess), 0);

        private static (double Offset, double Slope) HullEdge(ImmutableArray<Observation> points)
        {
            var hull = new List<Observation>();
            foreach (var point in points)
            {
                while (hull.Count >= 2 && IsAbove(hull[^2], hull[^1], point))
                    hull.RemoveAt(hull.Count - 1);
                hull.Add(point);
            }

            var middle = points.Average(p => (double)p.Tick);
            var right = Math.Max(1, hull.FindIndex(p => p.Tick >= middle));
            var (a, b) = (hull[right - 1], hull[right]);
            var slope = (b.Excess - a.Excess) / (b.Tick - a.Tick);
            if (Math.Abs(slope) <= MaxDrift)
                return (a.Excess - (slope * a.Tick), slope);
            slope = Math.Clamp(slope, -MaxDrift, MaxDrift);
            return (points.Min(p => p.Excess - (slope * p.Tick)), slope);
        }

        private static bool IsAbove(Observation a, Observation middle, Observation b) =>
            (middle.Excess - a.Excess) * (b.Tick - a.Tick) >= (b.Excess - a.Excess) * (middle.Tick - a.Tick);
    }
}
