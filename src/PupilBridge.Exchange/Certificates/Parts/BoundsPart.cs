using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>What the certificate does not say, which is more than what it says.</summary>
internal static class BoundsPart
{
    public static ReportSection Of(Certificate certificate)
    {
        var text = CertificateTerms.Text;
        var diameters = certificate.Discs.Items.Select(disc => disc.Diameter).ToArray();
        List<string> items =
        [
            text["Bounds.Discs"],
            text.Get(
                "Bounds.Range",
                Amounts.Millimetres(diameters.DefaultIfEmpty().Min()),
                Amounts.Millimetres(diameters.DefaultIfEmpty().Max())
            ),
            text["Bounds.Uncertainty"],
            text["Bounds.Moment"],
        ];
        if (certificate.Timing is null)
            items.Add(text["Bounds.NoTiming"]);
        items.Add(text[certificate.Lamps is null ? "Bounds.NoLamps" : "Bounds.Lamps"]);
        if (certificate.Repeatability is null)
            items.Add(text["Bounds.NoRepeatability"]);
        items.Add(text["Bounds.Nothing"]);
        return new(text["Section.Bounds"], [new ReportList("", [.. items.Select(item => new ReportItem(item, ""))])]);
    }
}
