using PdfSharp.Drawing;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>How wide words are at a letter size of one point; the same words come again at every size that is tried.</summary>
/// <remarks>For one thread.</remarks>
internal sealed class WordWidths : IDisposable
{
    private const double Measured = 100;
    private readonly XGraphics context = XGraphics.CreateMeasureContext(
        new XSize(1000, 1000),
        XGraphicsUnit.Point,
        XPageDirection.Downwards
    );
    private readonly XFont plain = new(ReportFonts.Family, Measured, XFontStyleEx.Regular);
    private readonly XFont bold = new(ReportFonts.Family, Measured, XFontStyleEx.Bold);
    private readonly Dictionary<(string, bool), double> known = [];

    /// <summary>The width, in points for letters of one point.</summary>
    /// <param name="text">The text.</param>
    /// <param name="isBold">Whether in bold letters.</param>
    public double Of(string text, bool isBold)
    {
        if (!known.TryGetValue((text, isBold), out var width))
        {
            width = context.MeasureString(text, isBold ? bold : plain).Width / Measured;
            known.Add((text, isBold), width);
        }

        return width;
    }

    /// <inheritdoc/>
    public void Dispose() => context.Dispose();
}
