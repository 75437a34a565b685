namespace PupilBridge.Exams.Statistics;

/// <summary>Mean and scatter of a sample.</summary>
/// <param name="Count">How many values, 1 or more.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="SumOfSquares">The sum of the squared deviations from the mean.</param>
public readonly record struct Sample(int Count, double Mean, double SumOfSquares)
{
    /// <summary>The sample standard deviation, with n − 1; not a number for one value.</summary>
    public double StandardDeviation => Math.Sqrt(SumOfSquares / (Count - 1));

    /// <summary>Takes a sample.</summary>
    /// <param name="values">The values, at least one.</param>
    /// <returns>Mean and sum of squares, computed from deviations.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static Sample Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var centre = Centre.Of(values);
        var squares = new CompensatedSum();
        foreach (var value in values)
        {
            var deviation = centre.From(value);
            squares.AddProduct(deviation, deviation);
        }

        return new(values.Count, centre.Mean, squares.Value);
    }
}
