namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>
/// How far two readings of the same subject by the same way differ (Bland &amp; Altman, Lancet 1986;i:307-310). The mean
/// difference is taken as 0: nothing should change between a first and a second reading.
/// </summary>
/// <param name="Count">How many subjects.</param>
/// <param name="WithinSubjectDeviation">The standard deviation within subjects, √(Σd²/2n), with n degrees of freedom.</param>
/// <param name="MeanDifference">The mean of first minus second; where it is not near 0 something did change.</param>
/// <param name="Factor">1.96 (the usual one), or 2 as in 1986.</param>
public sealed record Repeatability(int Count, double WithinSubjectDeviation, double MeanDifference, double Factor)
{
    /// <summary>
    /// The coefficient of repeatability: two readings of one subject differ by less in 95 % of cases. It is f·√2 times the
    /// deviation within subjects: 2.77 times for 1.96; 2.83 for 2; ISO 5725 rounds the former to 2.8.
    /// </summary>
    public double Coefficient => Factor * Math.Sqrt(2) * WithinSubjectDeviation;

    /// <summary>The 95 % confidence interval of the deviation within subjects, from χ² with n degrees of freedom.</summary>
    public Interval WithinSubjectInterval =>
        new(
            WithinSubjectDeviation * Math.Sqrt(Count / Quantiles.ChiSquared(Count, (1 + Quantiles.Level) / 2)),
            WithinSubjectDeviation * Math.Sqrt(Count / Quantiles.ChiSquared(Count, (1 - Quantiles.Level) / 2))
        );

    /// <summary>
    /// Whether the second readings differ from the first ones as a whole, beyond chance at 95 %: then the readings were not
    /// mere repeats, and the coefficient is not repeatability alone.
    /// </summary>
    public required bool HasShifted { get; init; }

    /// <summary>Computes it.</summary>
    /// <param name="pairs">Two readings of each subject.</param>
    /// <param name="factor">How many standard deviations are meant to hold 95 %, more than 0.</param>
    /// <returns>The repeatability.</returns>
    /// <exception cref="StatisticsRefusedException">Every second reading equals the first.</exception>
    public static Repeatability Of(PairedReadings pairs, double factor = LimitsOfAgreement.UsualFactor)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
        var squares = new CompensatedSum();
        foreach (var difference in pairs.Differences)
            squares.AddProduct(difference, difference);
        var within = Math.Sqrt(squares.Value / (2 * pairs.Count));
        if (within <= pairs.RoundingLevel)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "Every second reading equals the first, so nothing can be said about how far repeats scatter."
            );
        }

        var differences = Sample.Of(pairs.Differences);
        var error = differences.StandardDeviation / Math.Sqrt(pairs.Count);
        return new(pairs.Count, within, differences.Mean, factor)
        {
            HasShifted = Math.Abs(differences.Mean) > Quantiles.StudentT(pairs.Count - 1) * error,
        };
    }
}
