using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>The correction line with all that says how far it is to be trusted, and what it comes to over the range.</summary>
internal static class LinePart
{
    /// <summary>Into so many places the range is cut for the table.</summary>
    private const int Places = 5;

    public static IEnumerable<ReportPart> Of(CertifiedScale scale)
    {
        var text = CertificateTerms.Text;
        var line = scale.Line;
        yield return new ReportText(text["Line.Words"]);
        yield return new ReportFacts([
            new(text["Line.D0"], text.Get("InMillimetres", Amounts.Millimetres(line.D0))),
            new(
                text["Line.Y1"],
                text.Get(
                    "Line.Y1.Value",
                    Amounts.Beside(line.Y1, line.UncertaintyOfY1),
                    Amounts.Uncertainty(line.UncertaintyOfY1)
                )
            ),
            new(
                text["Line.Y2"],
                text.Get(
                    "Line.Y2.Value",
                    Amounts.Beside(line.Y2, line.UncertaintyOfY2),
                    Amounts.Uncertainty(line.UncertaintyOfY2)
                )
            ),
            new(text["Line.R"], Amounts.Signed(line.Correlation, 3)),
            new(text["Line.S"], text.Get("Line.S.Value", Amounts.Uncertainty(line.ResidualDeviation))),
            new(
                text["Line.Repeatability"],
                text.Get(
                    "Line.Repeatability.Value",
                    Amounts.Uncertainty(line.Repeatability),
                    Amounts.Degrees(line.RepeatabilityDegrees)
                )
            ),
            new(
                text["Line.Fit"],
                text.Get(
                    line.IsBent ? "Line.Fit.Bent" : "Line.Fit.Straight",
                    // Where nothing at all explains a residual, the ratio is beyond any number, which the text has no word for.
                    line.LackOfFit
                        is { } ratio
                            and not 0
                    || !line.IsBent
                        ? Amounts.Fixed(line.LackOfFit ?? 0, 2)
                        : Amounts.Degrees(null),
                    Amounts.Chance(line.LackOfFitChance)
                )
            ),
        ]);
        if (scale.Band.Count > 0)
            yield return Corrections(scale);
    }

    private static ReportTable Corrections(CertifiedScale scale)
    {
        var text = CertificateTerms.Text;
        var last = scale.Band.Count - 1;
        int[] places = [.. Enumerable.Range(0, Places).Select(n => n * last / (Places - 1)).Distinct()];
        return new(
            text["Corrections.Caption"],
            [text["Head.IndicatedDiameter"], text["Head.CorrectionOfLine"]],
            [0.3, 0.3],
            [
                .. places
                    .Select(n => scale.Band[n])
                    .Select(point =>
                        (string[])
                            [
                                Amounts.Millimetres(point.Indicated),
                                text.Get(
                                    "PlusMinus",
                                    Amounts.SignedMillimetres(point.Correction),
                                    Amounts.Uncertainty(point.ExpandedFor95)
                                ),
                            ]
                    ),
            ]
        )
        {
            IsSmall = true,
            StaysWhole = true,
            NumberColumns = [0, 1],
        };
    }
}
