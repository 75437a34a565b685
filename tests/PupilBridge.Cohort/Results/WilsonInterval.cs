namespace PupilBridge.Cohort.Results;

/// <summary>
/// The 95 % score interval of a proportion (Wilson EB, J Am Stat Assoc 1927;22(158):209-212): the proportions p with
/// (x/n − p)² ≤ z²·p(1 − p)/n.
/// </summary>
/// <param name="Hits">How many.</param>
/// <param name="Of">Of how many; 0 gives the interval of knowing nothing, 0 to 1.</param>
public readonly record struct WilsonInterval(int Hits, int Of)
{
    private const double Z = 1.959963984540054;

    /// <summary>The proportion; null of nothing.</summary>
    public double? Proportion => Of == 0 ? null : (double)Hits / Of;

    /// <summary>The lower end.</summary>
    public double Lower => Of == 0 ? 0 : Math.Max(0, Centre - HalfWidth);

    /// <summary>The upper end.</summary>
    public double Upper => Of == 0 ? 1 : Math.Min(1, Centre + HalfWidth);

    private double Centre => (Hits + (Z * Z / 2)) / (Of + (Z * Z));

    private double HalfWidth
    {
        get
        {
            var p = (double)Hits / Of;
            return Z * Math.Sqrt((Of * p * (1 - p)) + (Z * Z / 4)) / (Of + (Z * Z));
        }
    }
}
