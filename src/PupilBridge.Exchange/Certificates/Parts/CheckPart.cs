using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>How paper or page is held against the journal.</summary>
internal static class CheckPart
{
    public static ReportSection Of(Certificate certificate, string json, bool isDraft)
    {
        var text = CertificateTerms.Text;
        List<ReportFact> facts =
        [
            new(text["Program"], certificate.ProgramVersion),
            new(text["Format"], certificate.Format.ToString(CultureInfo.InvariantCulture)),
        ];
        if (!isDraft)
        {
            facts.Add(
                new(text["Head"], certificate.JournalHead.Length > 0 ? certificate.JournalHead : text["Head.None"])
            );
            facts.Add(new(text["Digest"], Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(json)))));
        }

        return new(
            text["Section.Check"],
            [
                new ReportFacts(facts),
                new ReportText(
                    isDraft ? text["Check.Draft"]
                    : certificate.JournalHead.Length > 0 ? text.Get("Check.Words", certificate.JournalHead)
                    : text["Check.NoHead"]
                )
                {
                    IsSmall = true,
                },
            ]
        );
    }
}
