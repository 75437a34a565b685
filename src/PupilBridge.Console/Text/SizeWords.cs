using System.Globalization;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Text;

/// <summary>Sizes as pages write them.</summary>
internal static class SizeWords
{
    /// <summary>The size that counts of one eye under one light; null if there is none.</summary>
    /// <param name="sizes">The sizes of one exam.</param>
    /// <param name="eye"><c>OD</c> or <c>OS</c>.</param>
    /// <param name="light"><c>bright</c> or <c>dim</c>; null for light that was not said.</param>
    public static SizeView? Of(IEnumerable<SizeView> sizes, string eye, string? light) =>
        sizes.LastOrDefault(size => size.Eye == eye && size.Light == light && !size.IsSuperseded);

    /// <summary>A diameter in mm to a hundredth, the place to which its uncertainty is written (JCGM 100:2008, 7.2.6).</summary>
    public static string Number(double millimetres) =>
        Math.Round((decimal)millimetres, 2, MidpointRounding.AwayFromZero)
            .ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>An expanded uncertainty in mm to a hundredth.</summary>
    public static string Uncertainty(double millimetres) =>
        Math.Round((decimal)millimetres, 2, MidpointRounding.AwayFromZero)
            .ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A difference in mm with its sign; a true minus, so that it is not taken for a dash.</summary>
    public static string Signed(double millimetres) =>
        Math.Round((decimal)millimetres, 2, MidpointRounding.AwayFromZero) switch
        {
            0 => "0.00",
            < 0 and var less => "−" + (-less).ToString("0.00", CultureInfo.InvariantCulture),
            var more => "+" + more.ToString("0.00", CultureInfo.InvariantCulture),
        };

    /// <summary>Whole seconds.</summary>
    public static string Seconds(double seconds) => Math.Round(seconds).ToString("0", CultureInfo.InvariantCulture);
}
