using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>A fitted line with the uncertainty that all its readings share: what corrects, and how surely.</summary>
public sealed class CalibrationLine
{
    /// <summary>Joins a fit and a common offset.</summary>
    /// <param name="fit">The line as the readings give it.</param>
    /// <param name="common">The offset common to all y.</param>
    /// <exception cref="ArgumentOutOfRangeException">The offset's uncertainty or degrees of freedom make no sense.</exception>
    public CalibrationLine(LineFit fit, CommonOffset common)
    {
        ArgumentNullException.ThrowIfNull(fit);
        if (!(common.StandardUncertainty >= 0 && double.IsFinite(common.StandardUncertainty)))
            throw new ArgumentOutOfRangeException(nameof(common), common, "Its uncertainty must be 0 or more.");
        if (!(common.DegreesOfFreedom > 0))
            throw new ArgumentOutOfRangeException(
                nameof(common),
                common,
                "Its degrees of freedom must be more than 0."
            );
        (Fit, Common) = (fit, common);
    }

    /// <summary>The line as the readings give it.</summary>
    public LineFit Fit { get; }

    /// <summary>The offset common to all y.</summary>
    public CommonOffset Common { get; }

    /// <summary>The standard uncertainty of y1, the common offset included.</summary>
    public double InterceptUncertainty => double.Hypot(Fit.InterceptUncertainty, Common.StandardUncertainty);

    /// <summary>
    /// The correlation of y1 and y2; the common offset makes it weaker, down to 0 where the readings meet the line without
    /// any residual.
    /// </summary>
    public double Correlation =>
        Common.StandardUncertainty > 0
            ? Fit.Correlation * Fit.InterceptUncertainty / InterceptUncertainty
            : Fit.Correlation;

    /// <summary>The line's value at a place, with its uncertainty (JCGM 100:2008, H.3.4).</summary>
    /// <param name="x">Where; outside the readings' range the uncertainty grows, and the line may not hold.</param>
    /// <returns>Value, standard uncertainty and effective degrees of freedom.</returns>
    public LinePrediction Predict(double x)
    {
        var fromScatter = Fit.UncertaintyAt(x);
        return new(
            x,
            Fit.At(x),
            double.Hypot(fromScatter, Common.StandardUncertainty),
            EffectiveDegrees.Of(
                (fromScatter, Fit.DegreesOfFreedom),
                (Common.StandardUncertainty, Common.DegreesOfFreedom)
            )
        );
    }
}
