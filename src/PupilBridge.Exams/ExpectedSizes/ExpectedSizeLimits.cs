namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>Where the formula ends, and where it is weak.</summary>
public static class ExpectedSizeLimits
{
    private const double DimmestCurve = 1e-4;
    private const double BrightestCurve = 1e4;

    /// <summary>Why the formula does not cover a light and an age.</summary>
    /// <param name="field">The light.</param>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>Every reason; none where it covers them.</returns>
    public static IReadOnlyList<ExpectedSizeFault> Faults(AdaptingField field, double ageYears)
    {
        var faults = new List<ExpectedSizeFault>();
        if (!IsPositive(field.LuminanceCandelasPerSquareMetre))
            faults.Add(ExpectedSizeFault.LuminanceNotPositive);
        if (!IsPositive(field.AreaSquareDegrees))
            faults.Add(ExpectedSizeFault.AreaNotPositive);
        else if (field.AreaSquareDegrees > AdaptingField.WholeSphereSquareDegrees)
            faults.Add(ExpectedSizeFault.AreaBeyondSphere);
        if (field.EyesThatSeeIt is not (1 or 2))
            faults.Add(ExpectedSizeFault.NotOneOrTwoEyes);
        if (!(ageYears >= UnifiedFormula.YoungestYears))
            faults.Add(ExpectedSizeFault.TooYoung);
        else if (ageYears > UnifiedFormula.OldestYears)
            faults.Add(ExpectedSizeFault.TooOld);
        return faults;
    }

    /// <summary>What to say beside a number that the formula does give.</summary>
    /// <param name="field">The light.</param>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>The cautions; often none.</returns>
    public static IReadOnlyList<ExpectedSizeCaution> Cautions(AdaptingField field, double ageYears)
    {
        var cautions = new List<ExpectedSizeCaution>();
        if (ageYears < UnifiedFormula.AdultFromYears)
            cautions.Add(ExpectedSizeCaution.ChildFormIsHypothetical);
        if (field.LuminanceCandelasPerSquareMetre is < DimmestCurve or > BrightestCurve)
            cautions.Add(ExpectedSizeCaution.LuminanceBeyondCurves);
        return cautions;
    }

    private static bool IsPositive(double value) => double.IsFinite(value) && value > 0;
}
