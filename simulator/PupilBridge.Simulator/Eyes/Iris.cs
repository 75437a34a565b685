namespace PupilBridge.Simulator.Eyes;

/// <summary>The muscle of one iris: moves a pupil towards the size that the midbrain asks for.</summary>
/// <remarks>
/// (dM/dD)·(dD/dt) = (R − M(D))/T with M(D) = 2.3026·artanh((D − c)/h), the mechanics of Pamplona, Oliveira and Baranoski
/// 2009 (named in <see cref="ReflexLatency"/>), which rests on Longtin A, Milton JG. "Modelling autonomous oscillations in
/// the human pupil light reflex using non-linear delay-differential equations." Bull Math Biol 1989;51(5):605–624 and on
/// Moon P, Spencer DE. J Opt Soc Am 1944;34(6):319–329. From there too: dilation takes three times as long as constriction.
/// Ours: the range is 1 to 9 mm (c = 5, h = 4) instead of 1.9 to 7.9, so that the steady sizes of the unified formula at all
/// ages fit in, the right-hand side is that size put through M, and T = 0.25 s.
/// </remarks>
internal sealed class Iris(double millimetres, double dilationTimes = 1)
{
    /// <summary>Smallest and largest size that an iris here can take, in millimetres.</summary>
    public const double Smallest = 1.2;
    public const double Largest = 8.8;

    private const double Centre = 5;
    private const double HalfRange = 4;
    private const double ConstrictSeconds = 0.25;
    private const double DilateSeconds = 3 * ConstrictSeconds;
    private const double HistorySeconds = 0.25;

    private readonly Queue<double> history = new();

    /// <summary>The size now, in millimetres.</summary>
    public double Millimetres { get; private set; } = Math.Clamp(millimetres, Smallest, Largest);

    /// <summary>The size a quarter of a second ago: what the light now arriving at the midbrain came through.</summary>
    public double DelayedMillimetres => history.TryPeek(out var earlier) ? earlier : Millimetres;

    public void Step(double towardsMillimetres, double seconds)
    {
        if (history.Count * seconds >= HistorySeconds)
        {
            history.Dequeue();
        }

        history.Enqueue(Millimetres);
        var asked = Math.Clamp(towardsMillimetres, Smallest, Largest);
        var pull = Tension(asked) - Tension(Millimetres);
        var time = pull < 0 ? ConstrictSeconds : DilateSeconds * dilationTimes;
        var u = (Millimetres - Centre) / HalfRange;
        var slope = 2.3026 / (HalfRange * (1 - (u * u)));
        Millimetres = Math.Clamp(Millimetres + (pull / slope * seconds / time), Smallest, Largest);
    }

    private static double Tension(double millimetres) => 2.3026 * Math.Atanh((millimetres - Centre) / HalfRange);
}
