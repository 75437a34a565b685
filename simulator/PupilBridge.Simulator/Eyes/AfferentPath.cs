namespace PupilBridge.Simulator.Eyes;

/// <summary>
/// The way of one eye's light to the midbrain: weakened by the eye's afferent loss, delayed by the latency, and adapting,
/// so that a light that has just come on counts for more than one that stays.
/// </summary>
/// <remarks>
/// That the reflex answers the rise of light and not its fall, which gives constriction followed by escape, is the
/// "unidirectional rate sensitivity" of Clynes M. Ann N Y Acad Sci 1961;92:946–969 (cited from memory). The form used here,
/// flux · exp(k · tanh(max(0, ln flux − what the eye is adapted to) / s)), and its constants are ours; in steady light the
/// factor is 1, so that the steady size stays the published one. The constants were chosen so that the swinging-flashlight
/// test looks by afferent loss as Bell and others describe their grades (Arch Ophthalmol 1993;111(7):938–942): at 0.4 log
/// units a weak constriction before the release, at 1.1 release at once.
/// </remarks>
internal sealed class AfferentPath
{
    /// <summary>k and s: how much a rise counts for, and the size of rise (in ln units) at which that levels off.</summary>
    private const double RiseStrength = 1.8;
    private const double RiseScale = 2;

    /// <summary>How fast an eye adapts to more light, and recovers in less.</summary>
    private const double AdaptSeconds = 1.2;
    private const double RecoverSeconds = 2.5;

    /// <summary>Below this flux nothing is seen; keeps the logarithm finite.</summary>
    private const double DarkFlux = 0.01;

    private readonly Queue<(TimeSpan Arrives, double Flux)> underway = new();
    private readonly double transmittance;
    private double sentLuminance;
    private double sentFlux;
    private TimeSpan lastArrival;
    private double adaptedLog;

    public AfferentPath(double lossLogUnits, double flux)
    {
        transmittance = Math.Pow(10, -lossLogUnits);
        sentFlux = ArrivedFlux = flux * transmittance;
        adaptedLog = Math.Log(ArrivedFlux + DarkFlux);
    }

    /// <summary>The flux that has arrived, weakened and delayed, without adaptation.</summary>
    public double ArrivedFlux { get; private set; }

    /// <summary>By how much adaptation raises the arrived flux at this moment: 1 in steady light.</summary>
    public double Rise { get; private set; } = 1;

    /// <summary>Tells what light falls into the eye from now on.</summary>
    public void Receive(TimeSpan now, double luminance, double flux)
    {
        flux *= transmittance;
        luminance *= transmittance;
        if (flux.Equals(sentFlux))
        {
            return;
        }

        // The brighter of what was and what is decides the latency; changes arrive in the order in which they were sent.
        var arrives = now + ReflexLatency.For(Math.Max(luminance, sentLuminance));
        lastArrival = arrives > lastArrival ? arrives : lastArrival;
        underway.Enqueue((lastArrival, flux));
        sentFlux = flux;
        sentLuminance = luminance;
    }

    public void Step(TimeSpan now, double seconds)
    {
        while (underway.TryPeek(out var next) && next.Arrives <= now)
        {
            ArrivedFlux = underway.Dequeue().Flux;
        }

        var log = Math.Log(ArrivedFlux + DarkFlux);
        var rise = log - adaptedLog;
        Rise = rise > 0 ? Math.Exp(RiseStrength * Math.Tanh(rise / RiseScale)) : 1;
        adaptedLog += rise * seconds / (rise > 0 ? AdaptSeconds : RecoverSeconds);
    }
}
