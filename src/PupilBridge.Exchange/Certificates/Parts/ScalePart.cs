using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Certificates.Plots;
using PupilBridge.Exchange.Paper;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>One scale: the means of the discs, the line, its uncertainty, and how far single readings lie off it.</summary>
internal static class ScalePart
{
    public static ReportSection Of(Certificate certificate, Eye eye)
    {
        var text = CertificateTerms.Text;
        var scale = certificate.Scales[eye];
        var plot = ResidualPlot.Of(certificate, eye);
        return new(
            text.Get("Section.Scale", CertificateTerms.Of(eye), text.Of("Statement", scale.Statement)),
            [
                MeansTable(scale),
                .. SetAside(scale),
                .. LinePart.Of(scale),
                BudgetTable.Of(scale.Budget),
                new ReportFigure(plot, ResidualWords.Of(plot)),
            ]
        );
    }

    /// <summary>Up to so many discs the table is kept on one sheet, whatever that leaves free on the sheet before.</summary>
    private const int MostWhole = 8;

    private static ReportTable MeansTable(CertifiedScale scale)
    {
        var text = CertificateTerms.Text;
        return new(
            text["Means.Caption"],
            [
                text["Head.Disc"],
                text["Head.Certified"],
                text["Head.Count"],
                text["Head.Indicated"],
                text["Head.Deviation"],
                text["Head.Correction"],
                text["Head.Residual"],
                text["Head.Error"],
                text["Head.Statement"],
            ],
            [0.09, 0.1, 0.05, 0.1, 0.09, 0.11, 0.1, 0.17, 0.19],
            [
                .. scale.Means.Select(mean =>
                    (string[])
                        [
                            mean.Disc,
                            Amounts.Millimetres(mean.Diameter),
                            Amounts.Degrees(mean.Count),
                            Amounts.Millimetres(mean.Indicated),
                            Amounts.Uncertainty(mean.Deviation),
                            Amounts.SignedMillimetres(mean.Correction),
                            Amounts.SignedMillimetres(mean.Residual),
                            text.Get(
                                "PlusMinus",
                                Amounts.SignedMillimetres(mean.Error),
                                Amounts.Uncertainty(mean.Expanded)
                            ),
                            text.Of("Statement", mean.Statement),
                        ]
                ),
            ]
        )
        {
            StaysWhole = scale.Means.Count <= MostWhole,
            NumberColumns = [1, 2, 3, 4, 5, 6, 7],
        };
    }

    /// <summary>What people set aside stands beside the means that are without it, not only in the annex.</summary>
    private static IEnumerable<ReportPart> SetAside(CertifiedScale scale)
    {
        var text = CertificateTerms.Text;
        ReportItem[] items =
        [
            .. scale
                .Readings.Where(reading => reading.State == ReadingsAnnex.SetAside)
                .Select(reading => new ReportItem(
                    text.Get(
                        "SetAside",
                        reading.Entry,
                        reading.Disc,
                        Amounts.Millimetres(reading.Indicated),
                        reading.By,
                        reading.Reason
                    ),
                    ""
                )),
        ];
        if (items.Length > 0)
            yield return new ReportList(text["SetAside.Head"], items);
    }
}
