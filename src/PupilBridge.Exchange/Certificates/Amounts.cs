using System.Globalization;

namespace PupilBridge.Exchange.Certificates;

/// <summary>
/// How amounts are written: lengths to 0.001 mm, uncertainties to two significant digits (JCGM 100:2008, 7.2.6), what is above or below
/// zero with its sign. Rounded to the nearest; all that is decided is decided before rounding.
/// </summary>
internal static class Amounts
{
    /// <summary>The sign that a screen reader reads as minus, and that no line is broken after.</summary>
    private const char Minus = '\u2212';

    /// <summary>A length in millimetres, to 0.001.</summary>
    /// <param name="millimetres">The length, in mm.</param>
    public static string Millimetres(double millimetres) => Fixed(millimetres, 3);

    /// <summary>A length in millimetres that may lie on either side of zero, to 0.001.</summary>
    /// <param name="millimetres">The length, in mm.</param>
    public static string SignedMillimetres(double millimetres) => Signed(millimetres, 3);

    /// <summary>An uncertainty or another measure of scatter, to two significant digits.</summary>
    /// <param name="amount">0 or more.</param>
    public static string Uncertainty(double amount) =>
        amount > 0 ? Fixed(amount, Decimals(amount)) : 0.ToString(CultureInfo.InvariantCulture);

    /// <summary>A value to the place to which its uncertainty is written, and to 0.001 at least.</summary>
    /// <param name="amount">The value.</param>
    /// <param name="uncertainty">Its uncertainty.</param>
    public static string Beside(double amount, double uncertainty) =>
        Signed(amount, uncertainty > 0 ? Math.Max(3, Decimals(uncertainty)) : 6);

    /// <summary>An amount with its sign; what rounds to zero has none.</summary>
    /// <param name="amount">The amount.</param>
    /// <param name="decimals">How many decimals.</param>
    public static string Signed(double amount, int decimals)
    {
        var text = Fixed(amount, decimals);
        return amount > 0 && text.Any(c => c is >= '1' and <= '9') ? $"+{text}" : text;
    }

    /// <summary>An amount.</summary>
    /// <param name="amount">The amount.</param>
    /// <param name="decimals">How many decimals.</param>
    public static string Fixed(double amount, int decimals)
    {
        var digits = Math.Abs(amount).ToString($"F{decimals}", CultureInfo.InvariantCulture);
        return amount < 0 && digits.Any(c => c is >= '1' and <= '9') ? $"{Minus}{digits}" : digits;
    }

    /// <summary>Degrees of freedom: whole ones as such, effective ones to a tenth.</summary>
    /// <param name="degrees">The degrees; null where infinite.</param>
    public static string Degrees(double? degrees) =>
        degrees is not { } finite ? "\u221E"
        : double.IsInteger(finite) ? Fixed(finite, 0)
        : Fixed(finite, 1);

    /// <summary>A probability.</summary>
    /// <param name="chance">Between 0 and 1.</param>
    public static string Chance(double chance) =>
        chance < 0.001 ? CertificateTerms.Text["Chance.Tiny"] : Fixed(chance, 3);

    /// <summary>How many decimals show two significant digits.</summary>
    private static int Decimals(double amount)
    {
        var decimals = 1 - (int)Math.Floor(Math.Log10(amount));
        // What rounds up to the next power of ten, as 0.0996, has one decimal less.
        if (Math.Round(amount * Math.Pow(10, decimals)) >= 100)
            decimals--;
        return Math.Clamp(decimals, 0, 12);
    }
}
