using System.Globalization;

namespace PupilBridge.Console.Pages.Bench;

/// <summary>Numbers of the bench as pages show them; the unit stands in the heading or behind.</summary>
internal static class Amount
{
    /// <summary>A length in mm, to the micrometre.</summary>
    public static string Mm(double millimetres) => millimetres.ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>A deviation in mm with its sign, to the micrometre.</summary>
    public static string SignedMm(double millimetres) =>
        millimetres.ToString("+0.000;−0.000;0.000", CultureInfo.InvariantCulture);

    /// <summary>An uncertainty in mm, to a tenth of a micrometre.</summary>
    public static string FineMm(double millimetres) => millimetres.ToString("0.0000", CultureInfo.InvariantCulture);

    /// <summary>A number as it would be typed.</summary>
    public static string Typed(double value) => value.ToString("0.#######", CultureInfo.InvariantCulture);

    /// <summary>A certified diameter in mm: all its digits, and at least to the micrometre, so that discs stand alike below each other.</summary>
    public static string Diameter(double millimetres) =>
        millimetres.ToString("0.000####", CultureInfo.InvariantCulture);

    /// <summary>A time in ms, to a tenth.</summary>
    public static string Ms(double milliseconds) => milliseconds.ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>A difference of logarithms with its sign, in log units.</summary>
    public static string LogUnits(double value) => value.ToString("+0.000;−0.000;0.000", CultureInfo.InvariantCulture);

    /// <summary>Degrees of freedom; a sign for any number where they are infinite.</summary>
    public static string Degrees(double? degrees) =>
        degrees is { } known ? known.ToString("0.#", CultureInfo.InvariantCulture) : "∞";
}
