using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>What the two lamps give against each other.</summary>
internal static class LampsPart
{
    public static ReportSection Of(CertifiedLamps? lamps)
    {
        var text = CertificateTerms.Text;
        if (lamps is null)
            return new(text["Section.Lamps"], [new ReportText(text["Lamps.None"])]);
        return new(
            text["Section.Lamps"],
            [
                new ReportFacts([
                    new(
                        text["Lamps.Balance"],
                        text.Get(
                            "Lamps.Balance.Value",
                            Amounts.Beside(lamps.LogUnits, lamps.Expanded),
                            Amounts.Uncertainty(lamps.Expanded),
                            Amounts.Fixed(Math.Abs(100 * (Math.Pow(10, lamps.LogUnits) - 1)), 1),
                            text[lamps.LogUnits < 0 ? "Lamps.Less" : "Lamps.More"]
                        )
                    ),
                    new(text["Lamps.Measured"], text.Get("ByWhom", CertificateTerms.Moment(lamps.Measured), lamps.By)),
                    new(text["Lamps.Source"], text.Of("LampSource", lamps.Source)),
                ]),
                new ReportText(text["Lamps.Words"]) { IsSmall = true },
            ]
        );
    }
}
