namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>How large letters are, and how close lines stand: one of the steps by which a report is fitted onto its sheet.</summary>
/// <param name="Size">The size of plain letters, in points.</param>
/// <param name="Leading">How much higher a line is than its letters.</param>
internal readonly record struct PdfStep(double Size, double Leading)
{
    /// <summary>Letters smaller than these, in points, are set nowhere.</summary>
    public const double Smallest = 4.7;

    /// <summary>The size of the smallest letters of the step (sources, further looks, the plot), in points.</summary>
    public double Small => Math.Max(0.87 * Size, Smallest);

    /// <summary>
    /// How high a small x is as a share of the letters' size: 1120 of 2048 units in both faces of DejaVu Sans Condensed (the box of the
    /// glyph in the OpenType table "glyf").
    /// </summary>
    public const double XHeight = 1120.0 / 2048;
}
