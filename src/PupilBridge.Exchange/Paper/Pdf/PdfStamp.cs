using PdfSharp.Drawing;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>Words across a whole sheet, pale and behind everything else.</summary>
internal static class PdfStamp
{
    /// <summary>How much of the sheet's diagonal they take.</summary>
    private const double Share = 0.8;

    /// <summary>Draws them.</summary>
    /// <param name="place">The sheet that is drawn on, still empty.</param>
    /// <param name="sheet">Its size.</param>
    /// <param name="stamp">The words.</param>
    public static void Draw(PdfPlace place, PdfSheet sheet, string stamp)
    {
        var words = ReportFonts.Coverage.Printable(stamp);
        var wide = place.Letters.Width(words, place.Letters.Bold) / place.Letters.Bold.Size;
        var font = new XFont(
            ReportFonts.Family,
            Share * double.Hypot(sheet.Width, sheet.Height) / wide,
            XFontStyleEx.Bold
        );
        var (graphics, middle) = (place.Graphics, new XPoint(sheet.Width / 2, sheet.Height / 2));
        place.Structure.BeginArtifact();
        var before = graphics.Save();
        graphics.RotateAtTransform(-Math.Atan2(sheet.Height, sheet.Width) * 180 / Math.PI, middle);
        graphics.DrawString(
            words,
            font,
            new XSolidBrush(XColor.FromGrayScale(0.9)),
            middle.X - (wide * font.Size / 2),
            middle.Y + (0.36 * font.Size)
        );
        graphics.Restore(before);
        place.Structure.End();
    }
}
