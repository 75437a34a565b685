namespace PupilBridge.Exams.Statistics;

/// <summary>
/// The mean of a sample with twice the digits, so that deviations from it are right even where the values are large and
/// their differences small.
/// </summary>
/// <param name="Mean">The mean, rounded.</param>
/// <param name="Rest">What rounding the mean left over.</param>
public readonly record struct Centre(double Mean, double Rest)
{
    /// <summary>The mean of values.</summary>
    /// <param name="values">The values, at least one.</param>
    /// <returns>The mean.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static Centre Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0)
            throw new ArgumentException("A mean needs at least one value.", nameof(values));
        var sum = new CompensatedSum();
        foreach (var value in values)
            sum.Add(value);
        double count = values.Count;
        var mean = sum.Value / count;
        var left = Math.FusedMultiplyAdd(-mean, count, sum.Value) + sum.Rest;
        return new(mean, left / count);
    }

    /// <summary>How far a value lies from the mean.</summary>
    /// <param name="value">The value.</param>
    /// <returns>Value minus mean.</returns>
    public double From(double value) => value - Mean - Rest;
}
