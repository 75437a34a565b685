namespace PupilBridge.Exchange.Certificates.Plots;

/// <summary>What a plot of residuals spans.</summary>
/// <param name="From">The smallest indicated diameter, in mm.</param>
/// <param name="To">The largest, in mm.</param>
/// <param name="Half">How far it goes above and below the line, in mm.</param>
internal sealed record ResidualSpan(double From, double To, double Half)
{
    /// <summary>The limit is brought into the picture as long as readings and band keep this share of its height.</summary>
    private const double LeastShare = 0.6;

    /// <summary>The span of a plot: everything but a limit that lies far off.</summary>
    /// <param name="plot">The plot.</param>
    public static ResidualSpan Of(ResidualPlot plot)
    {
        double[] x =
        [
            .. plot.Readings.Concat(plot.Means).Select(point => point.Indicated),
            .. plot.Band.Select(point => point.Indicated),
        ];
        var (from, to) = x.Length == 0 ? (0, 1) : (x.Min(), x.Max());
        var room = Math.Max(0.04 * (to - from), 0.01);
        var own =
            1.12
            * plot.Readings.Concat(plot.Means)
                .Select(point => Math.Abs(point.Residual))
                .Concat(plot.Band.Select(point => point.Expanded))
                .Append(0.002)
                .Max();
        var half = own;
        foreach (var side in (int[])[-1, 1])
        {
            var needed = 1.05 * Math.Max(Math.Abs(plot.LimitAt(side, from)), Math.Abs(plot.LimitAt(side, to)));
            if (needed > half && own >= LeastShare * needed)
                half = needed;
        }

        return new(from - room, to + room, half);
    }

    /// <summary>Round values at which lines of a grid stand.</summary>
    /// <param name="from">The least.</param>
    /// <param name="to">The most.</param>
    /// <param name="most">How many at most.</param>
    /// <returns>Multiples of 1, 2 or 5 times a power of ten, and how many decimals they need.</returns>
    public static (IReadOnlyList<double> Values, int Decimals) Ticks(double from, double to, int most)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10((to - from) / most)));
        var step = ((double[])[1, 2, 5, 10]).Select(n => n * power).First(s => (to - from) / s <= most);
        var first = (int)Math.Ceiling((from / step) - 1e-9);
        var last = (int)Math.Floor((to / step) + 1e-9);
        var decimals = Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-9));
        return ([.. Enumerable.Range(first, Math.Max(0, last - first + 1)).Select(n => n * step)], decimals);
    }
}
