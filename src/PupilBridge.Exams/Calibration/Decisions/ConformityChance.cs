using MathNet.Numerics.Distributions;

namespace PupilBridge.Exams.Calibration.Decisions;

/// <summary>
/// How likely a true value conforms, given a result (JCGM 106:2012, clause 7, from memory), for a normal distribution.
/// </summary>
public static class ConformityChance
{
    /// <summary>That it lies below an upper limit.</summary>
    /// <param name="estimate">The result.</param>
    /// <param name="standardUncertainty">Its standard uncertainty, more than 0.</param>
    /// <param name="upperLimit">The limit.</param>
    /// <returns>Between 0 and 1.</returns>
    public static double Below(double estimate, double standardUncertainty, double upperLimit) =>
        Normal.CDF(0, 1, (upperLimit - estimate) / standardUncertainty);

    /// <summary>That it lies within a limit to either side.</summary>
    /// <param name="error">The result.</param>
    /// <param name="standardUncertainty">Its standard uncertainty, more than 0.</param>
    /// <param name="limit">The limit's size.</param>
    /// <returns>Between 0 and 1.</returns>
    public static double Within(double error, double standardUncertainty, double limit) =>
        Below(error, standardUncertainty, limit) - Below(error, standardUncertainty, -limit);
}
