namespace PupilBridge.Constructed.Published;

/// <summary>How many digits of a number are right, beside a reference.</summary>
public static class CorrectDigits
{
    /// <summary>Counts them as −log10 of the relative error.</summary>
    /// <param name="found">The number.</param>
    /// <param name="reference">The reference, not 0.</param>
    /// <returns>At most 16, as many as a double has.</returns>
    public static double Of(double found, double reference) =>
        -Math.Log10(Math.Max(Math.Abs(found - reference) / Math.Abs(reference), 1e-16));
}
