namespace PupilBridge.Exams.Calibration.Decisions;

/// <summary>How a result is held against its limit; agreed before anything is measured (ISO/IEC 17025:2017, 7.1.3).</summary>
public enum DecisionRuleKind
{
    /// <summary>The result alone decides. At the limit half of all results are wrongly accepted (ILAC-G8:09/2019, 4.2).</summary>
    SimpleAcceptance = 1,

    /// <summary>A guard band w = U on both sides of the limit, with four statements (ILAC-G8:09/2019, 4.2).</summary>
    GuardBand = 2,
}

/// <summary>What can be said of a result.</summary>
public enum ConformityStatement
{
    /// <summary>Within the limit, guard band and all.</summary>
    Pass = 1,

    /// <summary>Within the limit, nearer to it than the guard band.</summary>
    ConditionalPass = 2,

    /// <summary>Beyond the limit, nearer to it than the guard band.</summary>
    ConditionalFail = 3,

    /// <summary>Beyond the limit, guard band and all.</summary>
    Fail = 4,
}

/// <summary>A decision rule with its limit.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="MaximumPermissibleErrorMillimetres">The limit TL of an error to either side, in mm, more than 0.</param>
/// <param name="GuardBandFactor">
/// The guard band as a multiple of the expanded uncertainty U for 95 %: 1 by the rule w = U; 0.83 is that of ISO 14253-1:2017 (from
/// memory). It does not count for simple acceptance.
/// </param>
public sealed record DecisionRule(
    DecisionRuleKind Kind,
    double MaximumPermissibleErrorMillimetres,
    double GuardBandFactor = 1
)
{
    /// <summary>The rule where nothing is configured: a guard band w = U, 0.10 mm. Our own choice.</summary>
    public static DecisionRule Default { get; } = new(DecisionRuleKind.GuardBand, 0.10);

    /// <summary>The width w of the guard band for an expanded uncertainty, both in mm.</summary>
    /// <param name="expandedMillimetres">U for 95 %, in mm.</param>
    /// <returns>w.</returns>
    public double GuardBandMillimetres(double expandedMillimetres) =>
        Kind == DecisionRuleKind.SimpleAcceptance ? 0 : GuardBandFactor * expandedMillimetres;

    /// <summary>Decides (ILAC-G8:09/2019, 4.2).</summary>
    /// <param name="errorMillimetres">The error that was found, in mm.</param>
    /// <param name="expandedMillimetres">Its expanded uncertainty for 95 %, in mm, 0 or more.</param>
    /// <returns>The statement; a value right at a border belongs to the better side.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is none, or the uncertainty is below 0.</exception>
    public ConformityStatement Decide(double errorMillimetres, double expandedMillimetres)
    {
        if (!double.IsFinite(errorMillimetres))
            throw new ArgumentOutOfRangeException(nameof(errorMillimetres), errorMillimetres, "A number is needed.");
        if (!(expandedMillimetres >= 0 && double.IsFinite(expandedMillimetres)))
            throw new ArgumentOutOfRangeException(
                nameof(expandedMillimetres),
                expandedMillimetres,
                "0 or more is needed."
            );
        var (size, limit, band) = (
            Math.Abs(errorMillimetres),
            MaximumPermissibleErrorMillimetres,
            GuardBandMillimetres(expandedMillimetres)
        );
        if (size <= limit - band)
            return ConformityStatement.Pass;
        if (size <= limit)
            return ConformityStatement.ConditionalPass;
        return size <= limit + band ? ConformityStatement.ConditionalFail : ConformityStatement.Fail;
    }
}
