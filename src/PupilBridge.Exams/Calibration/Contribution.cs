namespace PupilBridge.Exams.Calibration;

/// <summary>What contributes to the uncertainty of a corrected diameter.</summary>
public enum ContributionKind
{
    /// <summary>The line, by the scatter of the readings behind it.</summary>
    LineFromReadings = 1,

    /// <summary>The line, by the certified uncertainty of each disc, the scale's steps and its stated straightness.</summary>
    LineFromDiscs = 2,

    /// <summary>How far the scale may lie off the line where it is read.</summary>
    Straightness = 3,

    /// <summary>The offset that all discs share.</summary>
    CommonOffset = 4,

    /// <summary>The scatter of the reading itself.</summary>
    Repeatability = 5,

    /// <summary>What the scale's steps hide of the reading itself.</summary>
    Resolution = 6,
}

/// <summary>How a contribution was evaluated (JCGM 100:2008, 0.7).</summary>
public enum EvaluationType
{
    /// <summary>From the scatter of readings.</summary>
    A = 1,

    /// <summary>By other means.</summary>
    B = 2,
}

/// <summary>One line of a budget. All sensitivities are 1: each is a length that adds to the diameter.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Type">How it was evaluated.</param>
/// <param name="StandardUncertaintyMillimetres">Its standard uncertainty, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom behind it.</param>
public readonly record struct Contribution(
    ContributionKind Kind,
    EvaluationType Type,
    double StandardUncertaintyMillimetres,
    double DegreesOfFreedom
);
