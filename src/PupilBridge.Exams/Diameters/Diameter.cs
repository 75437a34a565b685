namespace PupilBridge.Exams.Diameters;

/// <summary>
/// The diameter of an entrance pupil with its uncertainty. No corneal correction is made: it is what every clinic
/// measures.
/// </summary>
/// <param name="Millimetres">The diameter, in mm.</param>
/// <param name="StandardUncertaintyMillimetres">Its combined standard uncertainty, in mm, 0 or more.</param>
/// <param name="IsCalibrated">Whether reference discs stand behind it.</param>
public readonly record struct Diameter(double Millimetres, double StandardUncertaintyMillimetres, bool IsCalibrated)
{
    /// <summary>
    /// The factor from the standard to the expanded uncertainty: 2, for about 95 % where the distribution is near normal
    /// (JCGM 100:2008, 6.3.3).
    /// </summary>
    public const double CoverageFactor = 2;

    /// <summary>What its error can have in common with that of another; null where nothing is known to.</summary>
    public SharedCorrection? Shared { get; init; }

    /// <summary>The expanded uncertainty for the factor <see cref="CoverageFactor"/>, in mm.</summary>
    public double ExpandedUncertaintyMillimetres => CoverageFactor * StandardUncertaintyMillimetres;
}

/// <summary>How the difference of two positions is corrected: the place of a calibration.</summary>
public interface ICorrection
{
    /// <summary>Whether reference discs stand behind it.</summary>
    bool IsCalibrated { get; }

    /// <summary>The corrected diameter and the standard uncertainty of the correction alone, both in mm.</summary>
    /// <param name="rawMillimetres">The difference of the two positions as read, in mm.</param>
    /// <returns>Corrected value and standard uncertainty.</returns>
    (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres);
}

/// <summary>The corrections there are.</summary>
public static class Correction
{
    /// <summary>
    /// No correction at all: the difference as read, nothing known of the scale's own error, and said so by
    /// <see cref="ICorrection.IsCalibrated"/> being false.
    /// </summary>
    public static ICorrection None { get; } = new NoCorrection();

    private sealed class NoCorrection : ICorrection
    {
        public bool IsCalibrated => false;

        public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
            (rawMillimetres, 0);
    }
}
