namespace PupilBridge.Cohort.Calibrations;

/// <summary>How a calibration is done and what is measured with it.</summary>
/// <param name="Discs">How many discs, evenly from 2 to 8 mm.</param>
/// <param name="Repeats">How often each is read.</param>
public sealed record CalibrationDesign(int Discs, int Repeats)
{
    /// <summary>The smallest disc, in mm.</summary>
    public const double Smallest = 2;

    /// <summary>The largest disc, in mm.</summary>
    public const double Largest = 8;

    /// <summary>How many readings the measured diameter is the mean of.</summary>
    public int Readings { get; init; } = 1;

    /// <summary>The certified diameters, in mm.</summary>
    public IEnumerable<double> Diameters =>
        Enumerable.Range(0, Discs).Select(n => Smallest + ((Largest - Smallest) * n / (Discs - 1)));
}
