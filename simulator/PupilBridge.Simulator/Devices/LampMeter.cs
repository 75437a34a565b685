using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>The light meters at the two lamps: each reads its lamp once it has been on for half a second.</summary>
/// <param name="fullMillilux">What each lamp gives at full output, in millilux.</param>
/// <param name="chance">The scatter of the readings.</param>
internal sealed class LampMeter(PerEye<int> fullMillilux, Chance chance)
{
    /// <summary>How long a lamp is on before it is read (docs/protocol.md, section 6.2).</summary>
    public static readonly TimeSpan Settling = TimeSpan.FromMilliseconds(500);

    /// <summary>Standard deviation of one reading, relative; our choice.</summary>
    public const double Scatter = 0.005;

    private Tick? read;

    /// <summary>Forgets what was read: a new boot begins, with ticks from 0.</summary>
    public void Restart() => read = null;

    /// <summary>The tick at which a lamp that went on then is read; null if it was, or none is on.</summary>
    /// <param name="since">When the burning lamp went on.</param>
    public Tick? DueFor(Tick? since) =>
        since is { } start && read != start ? new Tick(start.Milliseconds + (long)Settling.TotalMilliseconds) : null;

    /// <summary>Reads the burning lamp if that is due. To be called before the lamp may go off at the same tick.</summary>
    public void Advance(Eye? lit, Tick? since, int percent, Tick now, IBodyListener listener)
    {
        if (lit is not { } eye || since is not { } start || read == start || now - start < Settling)
        {
            return;
        }

        read = start;
        var millilux = fullMillilux[eye] * percent / 100.0 * (1 + (Scatter * chance.NextGaussian()));
        listener.Happened(InstrumentEvent.LampOutput(now, eye, (int)Math.Clamp(millilux, 0, 999_999_999)));
    }
}
