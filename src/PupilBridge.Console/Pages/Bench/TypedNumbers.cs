using System.Globalization;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Bench;

/// <summary>
/// Numbers as technicians type them: with a decimal point. A comma is refused and never guessed at, since 4,002 may be four
/// millimetres or four thousand.
/// </summary>
internal static class TypedNumbers
{
    /// <summary>Reads a number; null if it is none, or not finite.</summary>
    public static double? Read(string typed) =>
        double.TryParse(
            typed.Trim(),
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture,
            out var number
        ) && double.IsFinite(number)
            ? number
            : null;

    /// <summary>Why a text is no number, for whoever typed it.</summary>
    public static string WhatIsWrong(string typed) =>
        BenchText.Words.Get(typed.Contains(',', StringComparison.Ordinal) ? "Typed.Comma" : "Typed.NoNumber", typed);
}
