using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>The instrument's own clock: starts at 0 with each boot and may run fast or slow.</summary>
internal sealed class TickClock
{
    private double milliseconds;

    /// <summary>By how many parts in a million it runs fast (above 0) or slow.</summary>
    public double DriftPartsPerMillion { get; set; }

    /// <summary>The tick now.</summary>
    public Tick Now => new((long)Math.Floor(milliseconds + 1e-6));

    public void Advance(TimeSpan trueTime) =>
        milliseconds += trueTime.TotalMilliseconds * (1 + (DriftPartsPerMillion / 1e6));

    public void Restart() => milliseconds = 0;
}
