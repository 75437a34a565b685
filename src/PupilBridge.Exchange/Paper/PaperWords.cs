using System.Globalization;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Paper;

/// <summary>The words that every paper shares, whatever it says.</summary>
internal static class PaperWords
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(PaperWords), "PupilBridge.Exchange.Text.Paper");

    /// <summary>A whole number.</summary>
    /// <param name="number">The number.</param>
    public static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
