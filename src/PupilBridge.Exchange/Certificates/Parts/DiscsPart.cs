using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>The discs with the certificate that they bring along.</summary>
internal static class DiscsPart
{
    public static ReportSection Of(CertifiedDiscs discs)
    {
        var text = CertificateTerms.Text;
        return new(
            text["Section.Discs"],
            [
                new ReportFacts([
                    new(text["Discs.Set"], discs.Name),
                    new(text["Discs.Certificate"], discs.CertificateNumber),
                    new(text["Discs.By"], text.Get("Discs.By.Value", discs.CertifiedBy, discs.Certified)),
                    new(text["Discs.Expires"], discs.Expires ?? text["Expires.Never"]),
                    new(
                        text["Discs.Common"],
                        text.Get("Discs.Common.Value", Amounts.Uncertainty(discs.CommonUncertainty))
                    ),
                ]),
                new ReportTable(
                    text["Discs.Caption"],
                    [text["Head.Disc"], text["Head.Certified"], text["Head.DiscUncertainty"]],
                    [0.14, 0.14, 0.3],
                    [
                        .. discs.Items.Select(disc =>
                            (string[])
                                [
                                    disc.Name,
                                    Amounts.Millimetres(disc.Diameter),
                                    Amounts.Uncertainty(disc.StandardUncertainty),
                                ]
                        ),
                    ]
                )
                {
                    IsSmall = true,
                    NumberColumns = [1, 2],
                },
            ]
        );
    }
}
