using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench;

/// <summary>
/// The right lamp's output against the left one's, in log units: log10(right / left). Unequal lamps imitate a relative afferent defect,
/// so that it stands beside every swinging outcome.
/// </summary>
/// <param name="LogUnits">The balance; above 0 where the right lamp gives more.</param>
/// <param name="StandardUncertaintyLogUnits">Its standard uncertainty.</param>
/// <param name="DegreesOfFreedom">The effective degrees of freedom behind it.</param>
public sealed record LampBalance(double LogUnits, double StandardUncertaintyLogUnits, double DegreesOfFreedom)
{
    /// <summary>
    /// Beyond this, lamps count as unequal, in log units: half of the smallest step of the usual neutral-density filters, 0.3. Ours.
    /// </summary>
    public const double UnequalLogUnits = 0.15;

    /// <summary>The fewest readings of each lamp: with one, nothing is known of their scatter.</summary>
    public const int FewestReadings = 2;

    /// <summary>The expanded uncertainty for 95 %, in log units.</summary>
    public double ExpandedFor95LogUnits => Quantiles.StudentT(DegreesOfFreedom) * StandardUncertaintyLogUnits;

    /// <summary>
    /// From readings of a lux meter before each lamp. One meter is used for both, so that its own scale cancels; what does not is the
    /// scatter of its readings and its step: u² = ((u(R)/R)² + (u(L)/L)²) / ln²10 (JCGM 100:2008, 5.1.2).
    /// </summary>
    /// <param name="lux">The readings before each lamp, in lux, all above 0.</param>
    /// <param name="meterStepLux">The step of the meter's display, in lux, 0 or more.</param>
    /// <returns>The balance.</returns>
    /// <exception cref="StatisticsRefusedException">Too few readings; one that is no number above 0.</exception>
    public static LampBalance Of(PerEye<IReadOnlyList<double>> lux, double meterStepLux)
    {
        ArgumentNullException.ThrowIfNull(lux);
        if (!(meterStepLux >= 0 && double.IsFinite(meterStepLux)))
            throw new ArgumentOutOfRangeException(nameof(meterStepLux), meterStepLux, "0 or more is needed.");
        var right = Relative(lux.Right, meterStepLux);
        var left = Relative(lux.Left, meterStepLux);
        return new(
            Math.Log10(right.Mean / left.Mean),
            Math.Sqrt(Square(right.Scatter) + Square(right.Step) + Square(left.Scatter) + Square(left.Step))
                / Math.Log(10),
            EffectiveDegrees.Of(
                (right.Scatter, right.Degrees),
                (left.Scatter, left.Degrees),
                (double.Hypot(right.Step, left.Step), double.PositiveInfinity)
            )
        );
    }

    /// <summary>Whether the lamps are alike within a limit, as far as the uncertainty tells.</summary>
    /// <param name="limitLogUnits">The limit, in log units, more than 0.</param>
    /// <returns>The verdict.</returns>
    public LimitVerdict Against(double limitLogUnits) =>
        Comparison.Against(LogUnits, ExpandedFor95LogUnits, limitLogUnits);

    private static (double Mean, double Scatter, double Step, int Degrees) Relative(
        IReadOnlyList<double> lux,
        double step
    )
    {
        if (lux.Count < FewestReadings)
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"At least {FewestReadings} readings before each lamp are needed; there are {lux.Count}."
            );
        if (lux.Any(reading => !(reading > 0 && double.IsFinite(reading))))
            throw new StatisticsRefusedException(
                StatisticsFault.NotANumber,
                "A reading is no number of lux above 0. Is the lamp on, and the meter before it?"
            );
        var sample = Sample.Of(lux);
        return (
            sample.Mean,
            sample.StandardDeviation / Math.Sqrt(sample.Count) / sample.Mean,
            step / Math.Sqrt(12) / sample.Mean,
            sample.Count - 1
        );
    }

    private static double Square(double value) => value * value;
}
