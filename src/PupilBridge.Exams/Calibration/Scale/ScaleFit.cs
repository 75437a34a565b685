using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>
/// The correction line of one scale, <c>y(d) = y1 + y2·(d − d0)</c>, fitted by least squares to the means of its discs, with its
/// uncertainty.
/// <para>
/// Repeats of one disc share the disc's own error, so that readings are not independent: the line goes through the means, and its
/// uncertainty is built from what moves a mean. That is the repeats' scatter, found from them with n − J degrees of freedom for n
/// readings of J discs; the certified uncertainty of each disc; the scale's resolution; and how straight the scale is said to be. The
/// offset that all discs share is added as in JCGM 100:2008, H.3.6. Where the means lie farther off the line than all this explains
/// (<see cref="Check"/>), the line's uncertainty and the lack of straightness are taken from the means themselves, with J − 2 degrees
/// of freedom.
/// </para>
/// </summary>
public sealed class ScaleFit
{
    private ScaleFit(
        IReadOnlyList<DiscMean> means,
        LineFit line,
        double repeatability,
        LineCheck check,
        KnownBefore known,
        CorrectionLine correction
    ) =>
        (Means, Line, RepeatabilityMillimetres, Check, Known, Correction) = (
            means,
            line,
            repeatability,
            check,
            known,
            correction
        );

    /// <summary>The discs' means.</summary>
    public IReadOnlyList<DiscMean> Means { get; }

    /// <summary>The line through the means.</summary>
    public LineFit Line { get; }

    /// <summary>The repeatability: the standard deviation of readings of one disc, pooled over all discs, in mm.</summary>
    public double RepeatabilityMillimetres { get; }

    /// <summary>How many readings stand behind it all.</summary>
    public int Readings => Means.Sum(mean => mean.Indicated.Count);

    /// <summary>The degrees of freedom of the repeatability: readings − discs.</summary>
    public int DegreesOfRepeats => Readings - Means.Count;

    /// <summary>The standard deviation of all readings about the line, in mm, with n − 2 degrees of freedom.</summary>
    public double ResidualDeviationMillimetres =>
        Math.Sqrt(
            Means.Sum(mean =>
                mean.Indicated.SumOfSquares + (mean.Indicated.Count * Math.Pow(Line.ResidualOf(PointOf(mean)), 2))
            ) / (Readings - 2)
        );

    /// <summary>Whether the scale is straight.</summary>
    public LineCheck Check { get; }

    /// <summary>What was known before.</summary>
    public KnownBefore Known { get; }

    /// <summary>The line's numbers, as they are kept and used.</summary>
    public CorrectionLine Correction { get; }

    /// <summary>
    /// The variance of a difference of two readings that the scale's steps hide, in mm². Where readings scatter by more than a step, the
    /// scatter shows what the steps do to it, and averages it out; where they do not, the rest up to <see cref="OfSteps"/> stays hidden
    /// and the same in every repeat. Common practice: the larger of scatter and steps counts.
    /// </summary>
    public double HiddenVariance => Hidden(Square(RepeatabilityMillimetres), Known);

    /// <summary>
    /// The variance that a scale's steps give to a difference of two readings, in mm²: two rectangular distributions as wide as a step
    /// (JCGM 100:2008, 4.3.7).
    /// </summary>
    /// <param name="known">What is known of the scale.</param>
    public static double OfSteps(KnownBefore known) => Square(known.Resolution.Millimetres) / 6;

    /// <summary>Fits.</summary>
    /// <param name="readings">The readings that count.</param>
    /// <param name="known">What is known before.</param>
    /// <returns>The fit.</returns>
    /// <exception cref="StatisticsRefusedException">
    /// <see cref="ScaleReadings.Gather"/> or <see cref="CalibrationReadings.Check"/> found them unfit for a line.
    /// </exception>
    public static ScaleFit Of(IReadOnlyList<DiscReading> readings, KnownBefore known)
    {
        var means = ScaleReadings.Gather(readings);
        var variance = new MeansVariance([.. means.Select(mean => mean.Indicated.Mean)]);
        var line = LineFit.Of([.. means.Select(PointOf)], variance.Origin);
        var degrees = means.Sum(mean => mean.Indicated.Count) - means.Count;
        var ofRepeat = means.Sum(mean => mean.Indicated.SumOfSquares) / degrees;
        double[] fromRepeats = [.. means.Select(mean => ofRepeat / mean.Indicated.Count)];
        double[] fromDiscs = [.. means.Select(mean => KnownVariance(mean, known) + Hidden(ofRepeat, known))];
        var check = CheckOf(line, variance, fromRepeats, fromDiscs, degrees);
        var correction = check.IsBent
            ? Bent(line, variance, check, known)
            : new CorrectionLine(line.Origin, line.Intercept, line.Slope, variance.OfLine(fromRepeats), degrees)
            {
                FromDiscs = variance.OfLine(fromDiscs),
                Straightness = new(known.StraightnessMillimetres, IsFromReadings: false),
                Common = known.Common,
            };
        return new(means, line, Math.Sqrt(ofRepeat), check, known, correction);
    }

    /// <summary>What makes the corrected diameter uncertain of one further reading, or of the mean of several.</summary>
    /// <param name="indicatedMillimetres">The reading or the mean, in mm.</param>
    /// <param name="readings">How many readings it is the mean of, 1 or more.</param>
    /// <returns>The line's contributions, and the reading's own.</returns>
    public UncertaintyBudget Budget(double indicatedMillimetres, int readings = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(readings, 1);
        return new(
            indicatedMillimetres,
            [
                .. Correction.Contributions(indicatedMillimetres),
                new(
                    ContributionKind.Repeatability,
                    EvaluationType.A,
                    RepeatabilityMillimetres / Math.Sqrt(readings),
                    DegreesOfRepeats
                ),
                new(ContributionKind.Resolution, EvaluationType.B, Math.Sqrt(HiddenVariance), double.PositiveInfinity),
            ]
        );
    }

    private static CalibrationPoint PointOf(DiscMean mean) => new(mean.Indicated.Mean, mean.CorrectionMillimetres);

    private static double Hidden(double ofRepeat, KnownBefore known) => Math.Max(0, OfSteps(known) - ofRepeat);

    private static double KnownVariance(DiscMean mean, KnownBefore known) =>
        Square(mean.Disc.StandardUncertaintyMillimetres) + Square(known.StraightnessMillimetres);

    private static LineCheck CheckOf(
        LineFit line,
        MeansVariance variance,
        double[] fromRepeats,
        double[] fromDiscs,
        int degrees
    )
    {
        var (repeats, discs) = (variance.OfResiduals(fromRepeats), variance.OfResiduals(fromDiscs));
        return new(
            Square(line.ResidualDeviation),
            line.DegreesOfFreedom,
            repeats + discs,
            EffectiveDegrees.Of((Math.Sqrt(repeats), degrees), (Math.Sqrt(discs), double.PositiveInfinity))
        );
    }

    private static CorrectionLine Bent(LineFit line, MeansVariance variance, LineCheck check, KnownBefore known)
    {
        double[] alike = [.. Enumerable.Repeat(check.Observed, line.Count)];
        var beyond = Math.Sqrt(check.Observed - check.Expected + Square(known.StraightnessMillimetres));
        return new(line.Origin, line.Intercept, line.Slope, variance.OfLine(alike), line.DegreesOfFreedom)
        {
            Straightness = new(beyond, IsFromReadings: true),
            Common = known.Common,
        };
    }

    private static double Square(double value) => value * value;
}
