using System.Globalization;

namespace PupilBridge.Configuration;

/// <summary>A number as settings write it: decimal, with a point.</summary>
internal static class SettingNumber
{
    /// <summary>Reads a number.</summary>
    /// <param name="text">The text.</param>
    /// <returns>Null if it is none.</returns>
    public static decimal? Read(string? text) =>
        decimal.TryParse(
            text,
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : null;
}
