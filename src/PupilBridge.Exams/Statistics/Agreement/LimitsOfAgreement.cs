namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>
/// How far two ways to measure the same thing differ: Bland JM, Altman DG, "Statistical methods for assessing agreement
/// between two methods of clinical measurement", Lancet 1986;i:307-310. No correlation is computed: two ways that agree
/// badly can correlate well.
/// </summary>
/// <param name="Count">How many subjects.</param>
/// <param name="Bias">The mean of first minus second.</param>
/// <param name="StandardDeviation">The standard deviation s of the differences.</param>
/// <param name="Factor">How many s the limits lie from the bias.</param>
public sealed record LimitsOfAgreement(int Count, double Bias, double StandardDeviation, double Factor)
{
    /// <summary>
    /// 1.96, so that the limits hold 95 % of normally distributed differences, as the same authors write in Stat Methods
    /// Med Res 1999;8:135-160. Their paper of 1986 rounds it to 2.
    /// </summary>
    public const double UsualFactor = 1.96;

    /// <summary>The lower limit.</summary>
    public double Low => Bias - (Factor * StandardDeviation);

    /// <summary>The upper limit.</summary>
    public double High => Bias + (Factor * StandardDeviation);

    /// <summary>The standard error of the bias, s/√n.</summary>
    public double StandardErrorOfBias => StandardDeviation / Math.Sqrt(Count);

    /// <summary>
    /// The standard error of either limit, s·√((1 + f²/2)/n): √(3s²/n) for f = 2, as in 1986, 1.71·s/√n for f = 1.96, as in
    /// 1999. An approximation for many subjects.
    /// </summary>
    public double StandardErrorOfLimit => StandardErrorOfBias * Math.Sqrt(1 + (Factor * Factor / 2));

    /// <summary>The 95 % confidence interval of the bias, from Student's t with n − 1 degrees of freedom.</summary>
    public Interval BiasInterval => Interval.About(Bias, T * StandardErrorOfBias);

    /// <summary>The 95 % confidence interval of the lower limit.</summary>
    public Interval LowInterval => Interval.About(Low, T * StandardErrorOfLimit);

    /// <summary>The 95 % confidence interval of the upper limit.</summary>
    public Interval HighInterval => Interval.About(High, T * StandardErrorOfLimit);

    private double T => Quantiles.StudentT(Count - 1);

    /// <summary>Computes the limits.</summary>
    /// <param name="pairs">One reading of each subject by each of the two ways.</param>
    /// <param name="factor">How many s the limits lie from the bias, more than 0.</param>
    /// <returns>Bias, scatter and limits.</returns>
    /// <exception cref="StatisticsRefusedException">Every difference is the same.</exception>
    public static LimitsOfAgreement Of(PairedReadings pairs, double factor = UsualFactor)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
        var differences = Sample.Of(pairs.Differences);
        if (differences.StandardDeviation <= pairs.RoundingLevel)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "Every difference is the same, so there is no scatter to put limits on."
            );
        }

        return new(differences.Count, differences.Mean, differences.StandardDeviation, factor);
    }
}
