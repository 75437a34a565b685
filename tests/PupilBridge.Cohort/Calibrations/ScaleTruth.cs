namespace PupilBridge.Cohort.Calibrations;

/// <summary>What a simulated scale and simulated discs truly are, as standard deviations from which each trial draws; all in mm.</summary>
public sealed record ScaleTruth
{
    /// <summary>The error of the scale that a line corrects.</summary>
    public double Offset { get; init; } = 0.05;

    /// <summary>The same, in mm per mm.</summary>
    public double Slope { get; init; } = 0.005;

    /// <summary>The scatter of readings.</summary>
    public double Repeatability { get; init; } = 0.015;

    /// <summary>How far each disc truly differs from its certificate.</summary>
    public double Disc { get; init; } = 0.003;

    /// <summary>How far all discs differ alike.</summary>
    public double Common { get; init; } = 0.002;

    /// <summary>How far the scale lies off a straight line, at each place anew.</summary>
    public double Straightness { get; init; } = 0.003;

    /// <summary>The step of the scale, in µm.</summary>
    public int StepMicrometres { get; init; } = 10;

    /// <summary>
    /// Whether whatever is measured lies in a holder, at the same place in every repeat, so that the steps hide the same each time.
    /// </summary>
    public bool IsHeldInPlace { get; init; }
}
