using System.Globalization;

namespace PupilBridge.Verbs.Bench;

/// <summary>How the bench writes numbers for a person.</summary>
internal static class BenchNumbers
{
    /// <summary>A length in mm, to the micrometre.</summary>
    /// <param name="millimetres">The length.</param>
    public static string Millimetres(double millimetres) => millimetres.ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>A difference in mm, with its sign.</summary>
    /// <param name="millimetres">The difference.</param>
    public static string Signed(double millimetres) =>
        millimetres.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture);

    /// <summary>A whole number.</summary>
    /// <param name="number">The number.</param>
    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>A day.</summary>
    /// <param name="day">The day; null is a hyphen.</param>
    public static string Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "-";
}
