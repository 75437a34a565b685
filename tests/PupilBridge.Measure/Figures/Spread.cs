namespace PupilBridge.Measure.Figures;

/// <summary>Median and tail of what was measured.</summary>
/// <param name="Median">The 50th percentile.</param>
/// <param name="P99">The 99th percentile.</param>
/// <param name="Count">How many were measured.</param>
internal readonly record struct Spread(double Median, double P99, int Count)
{
    public static Spread Of(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return new Spread(At(sorted, 0.5), At(sorted, 0.99), sorted.Length);
    }

    private static double At(double[] sorted, double part) =>
        sorted[(int)Math.Min(sorted.Length - 1, sorted.Length * part)];
}
