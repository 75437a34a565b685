namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>What size age and light lead one to expect.</summary>
/// <param name="Millimetres">The diameter, in mm.</param>
/// <param name="Form">Which form of the formula gave it.</param>
/// <param name="Cautions">What stands beside the number.</param>
public sealed record ExpectedSize(
    double Millimetres,
    ExpectedSizeForm Form,
    IReadOnlyList<ExpectedSizeCaution> Cautions
);

/// <summary>Which form of the formula was used.</summary>
public enum ExpectedSizeForm
{
    /// <summary>The formula proper, 20 to 83 years.</summary>
    Adult = 1,

    /// <summary>The extension to children, 1 to under 20 years, which is more hypothetical.</summary>
    Child = 2,
}

/// <summary>Why the formula does not cover what was asked.</summary>
public enum ExpectedSizeFault
{
    /// <summary>The luminance is no number above 0: the formula is about eyes adapted to light.</summary>
    LuminanceNotPositive = 1,

    /// <summary>The area is no number above 0.</summary>
    AreaNotPositive = 2,

    /// <summary>The area is larger than everything there is to see.</summary>
    AreaBeyondSphere = 3,

    /// <summary>Neither one nor two eyes.</summary>
    NotOneOrTwoEyes = 4,

    /// <summary>Younger than 1 year, or no number.</summary>
    TooYoung = 5,

    /// <summary>Older than 83 years.</summary>
    TooOld = 6,
}

/// <summary>What a person who reads the number should know.</summary>
public enum ExpectedSizeCaution
{
    /// <summary>The extension to children is more hypothetical than the formula proper.</summary>
    ChildFormIsHypothetical = 1,

    /// <summary>The luminance lies outside the 0.0001 to 10,000 cd/m² over which the paper draws its curves.</summary>
    LuminanceBeyondCurves = 2,
}
