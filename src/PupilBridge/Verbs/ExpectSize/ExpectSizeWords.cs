using System.Globalization;
using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Verbs.ExpectSize;

/// <summary>What the expected size and its limits are called before people.</summary>
internal static class ExpectSizeWords
{
    /// <summary>Why a light or an age is not covered.</summary>
    /// <param name="fault">The reason.</param>
    /// <param name="field">The light that was asked for.</param>
    /// <param name="ageYears">The age that was asked for.</param>
    /// <returns>A sentence.</returns>
    public static string Of(ExpectedSizeFault fault, AdaptingField field, double ageYears) =>
        fault switch
        {
            ExpectedSizeFault.LuminanceNotPositive =>
                $"The luminance must be more than 0 cd/m², not {Number(field.LuminanceCandelasPerSquareMetre)}: "
                    + "the formula is about eyes adapted to light.",
            ExpectedSizeFault.AreaNotPositive =>
                $"The area must be more than 0 square degrees, not {Number(field.AreaSquareDegrees)}.",
            ExpectedSizeFault.AreaBeyondSphere =>
                $"An area of {Number(field.AreaSquareDegrees)} square degrees is more than there is to see in all "
                    + "directions (41,253).",
            ExpectedSizeFault.NotOneOrTwoEyes => $"{field.EyesThatSeeIt} eyes cannot see the field; 1 or 2 can.",
            ExpectedSizeFault.TooYoung => $"The formula holds from 1 year on, not at {Number(ageYears)}.",
            ExpectedSizeFault.TooOld => $"The formula holds up to 83 years, not at {Number(ageYears)}.",
            _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "Not a reason of the formula's limits."),
        };

    /// <summary>A caution as a sentence.</summary>
    /// <param name="caution">The caution.</param>
    /// <returns>What to keep in mind.</returns>
    public static string Of(ExpectedSizeCaution caution) =>
        caution switch
        {
            ExpectedSizeCaution.ChildFormIsHypothetical =>
                "Under 20 years this is the paper's extension to children, which its authors call more hypothetical.",
            ExpectedSizeCaution.LuminanceBeyondCurves =>
                "The luminance lies outside the 0.0001 to 10,000 cd/m² for which the paper draws its curves.",
            _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "Not a caution of the formula."),
        };

    /// <summary>Where the formula comes from.</summary>
    /// <param name="form">Which form was used.</param>
    /// <returns>The citation.</returns>
    public static string Source(ExpectedSizeForm form) =>
        "Watson & Yellott, J Vision 2012;12(10):12"
        + (form == ExpectedSizeForm.Child ? ", eq. 28 (children)" : ", unified formula");

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
