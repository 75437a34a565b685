using System.Text.Json.Serialization;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Verbs.Agreement;

/// <summary>Limits of agreement as a program reads them, at full precision.</summary>
internal sealed record LimitsJson(
    [property: JsonPropertyName("n")] int Count,
    [property: JsonPropertyName("bias")] double Bias,
    [property: JsonPropertyName("s")] double Deviation,
    [property: JsonPropertyName("factor")] double Factor,
    [property: JsonPropertyName("loa_low")] double Low,
    [property: JsonPropertyName("loa_high")] double High,
    [property: JsonPropertyName("bias_ci95")] double?[] BiasInterval,
    [property: JsonPropertyName("loa_low_ci95")] double?[] LowInterval,
    [property: JsonPropertyName("loa_high_ci95")] double?[] HighInterval
);

/// <summary>Repeatability as a program reads it.</summary>
internal sealed record RepeatsJson(
    [property: JsonPropertyName("n")] int Count,
    [property: JsonPropertyName("within_sd")] double WithinDeviation,
    [property: JsonPropertyName("within_sd_ci95")] double?[] WithinInterval,
    [property: JsonPropertyName("factor")] double Factor,
    [property: JsonPropertyName("repeatability")] double Coefficient,
    [property: JsonPropertyName("mean_difference")] double MeanDifference
);

/// <summary>Kappa as a program reads it.</summary>
internal sealed record GradesJson(
    [property: JsonPropertyName("n")] int Count,
    [property: JsonPropertyName("kappa")] double Kappa,
    [property: JsonPropertyName("kappa_ci95")] double?[] KappaInterval,
    [property: JsonPropertyName("kappa_weighted")] double Weighted,
    [property: JsonPropertyName("kappa_weighted_ci95")] double?[] WeightedInterval,
    [property: JsonPropertyName("weights")] string Weights,
    [property: JsonPropertyName("agreement")] double Observed,
    [property: JsonPropertyName("agreement_by_chance")] double ByChance
);

/// <summary>The six intraclass correlations as a program reads them.</summary>
internal sealed record RatingsJson(
    [property: JsonPropertyName("n")] int Subjects,
    [property: JsonPropertyName("k")] int Raters,
    [property: JsonPropertyName("icc_1_1")] double? Single1,
    [property: JsonPropertyName("icc_2_1")] double? Single2,
    [property: JsonPropertyName("icc_3_1")] double? Single3,
    [property: JsonPropertyName("icc_1_k")] double? Mean1,
    [property: JsonPropertyName("icc_2_k")] double? Mean2,
    [property: JsonPropertyName("icc_3_k")] double? Mean3,
    [property: JsonPropertyName("ci95")] IReadOnlyDictionary<string, double?[]> Intervals,
    [property: JsonPropertyName("ms_between")] double Between,
    [property: JsonPropertyName("ms_within")] double Within,
    [property: JsonPropertyName("ms_raters")] double OfRaters,
    [property: JsonPropertyName("ms_residual")] double Residual
);

/// <summary>What JSON has no number for is null.</summary>
internal static class JsonNumbers
{
    /// <summary>A number that JSON can hold.</summary>
    /// <param name="value">Any value.</param>
    /// <returns>Null where it is infinite or not a number.</returns>
    public static double? OrNull(double value) => double.IsFinite(value) ? value : null;

    /// <summary>Both ends of an interval.</summary>
    /// <param name="interval">The interval.</param>
    /// <returns>Low and high.</returns>
    public static double?[] Ends(Interval interval) => [OrNull(interval.Low), OrNull(interval.High)];
}
