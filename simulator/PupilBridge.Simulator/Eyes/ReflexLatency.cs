namespace PupilBridge.Simulator.Eyes;

/// <summary>How long after a change of light a pupil begins to move.</summary>
/// <remarks>
/// τ = 253 − 14·ln L + 70·R − 29·R·ln L in milliseconds, L in foot-lamberts, R the frequency of the light in hertz: equation
/// 1 of Pamplona VF, Oliveira MM, Baranoski GVG. "Photorealistic models for pupil light reflex and iridal pattern
/// deformation." ACM Trans Graph 2009;28(4):106, which takes it from Ellis CJK. "The pupillary light reflex in normal
/// subjects." Br J Ophthalmol 1981;65:754–759. (The equation was compared with two independent public implementations;
/// the two papers were not open.) Single stimuli have R = 0. The limits are ours: the fit is not used outside the range
/// in which latencies are commonly reported, 0.2 to 0.5 s (common practice, no one source).
/// </remarks>
public static class ReflexLatency
{
    /// <summary>The shortest latency used here.</summary>
    public static readonly TimeSpan Shortest = TimeSpan.FromMilliseconds(200);

    /// <summary>The longest latency used here.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromMilliseconds(500);

    private const double CandelaPerSquareMetreInFootLamberts = 1 / 3.4262591;

    /// <summary>The latency for a light of a given luminance.</summary>
    /// <param name="luminance">Luminance as the eye's afferent path conveys it, in cd/m²; 0 or less gives the longest.</param>
    /// <returns>200 to 500 ms.</returns>
    public static TimeSpan For(double luminance)
    {
        if (luminance <= 0)
        {
            return Longest;
        }

        var milliseconds = PublishedMilliseconds(luminance * CandelaPerSquareMetreInFootLamberts, frequencyHertz: 0);
        return TimeSpan.FromMilliseconds(
            Math.Clamp(milliseconds, Shortest.TotalMilliseconds, Longest.TotalMilliseconds)
        );
    }

    /// <summary>The published fit, without limits.</summary>
    /// <param name="footLamberts">Luminance in foot-lamberts, above 0.</param>
    /// <param name="frequencyHertz">Frequency of the light in hertz, 0 for a single stimulus.</param>
    /// <returns>Milliseconds.</returns>
    public static double PublishedMilliseconds(double footLamberts, double frequencyHertz)
    {
        var log = Math.Log(footLamberts);
        return 253 - (14 * log) + (70 * frequencyHertz) - (29 * frequencyHertz * log);
    }
}
