using OxyPlot;

namespace PupilBridge.Exchange.History;

/// <summary>
/// Says how much room words need in a browser. The plotting library's own measure is that of a narrow printer's font in points; a browser
/// takes pixels and whatever sans-serif font it has, so that some room to spare is added.
/// </summary>
internal sealed class BrowserLikeMeasurer : PdfRenderContext
{
    /// <summary>Pixels in a point, and a fifth more for wider fonts.</summary>
    private const double Factor = 4.0 / 3.0 * 1.2;

    public BrowserLikeMeasurer()
        : base(100, 100, OxyColors.Transparent) { }

    /// <inheritdoc/>
    public override OxySize MeasureText(string text, string fontFamily, double fontSize, double fontWeight) =>
        base.MeasureText(text, fontFamily, fontSize * Factor, fontWeight);
}
