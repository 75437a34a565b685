using System.Globalization;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>Which certificate it is, by whom, from when until when, and whose place it takes.</summary>
internal static class IssuePart
{
    public static ReportSection Of(Certificate certificate, bool isDraft)
    {
        var text = CertificateTerms.Text;
        return new(
            text[isDraft ? "Section.Issue.Draft" : "Section.Issue"],
            [
                new ReportFacts([
                    new(
                        text["Number"],
                        isDraft ? text["Number.None"] : certificate.Number.ToString(CultureInfo.InvariantCulture)
                    ),
                    new(text["Clinic"], certificate.Clinic.Length > 0 ? certificate.Clinic : text["NotSaid"]),
                    new(
                        text["Issued"],
                        isDraft
                            ? text["Issued.Not"]
                            : text.Get("ByWhom", CertificateTerms.Moment(certificate.Issued), certificate.IssuedBy)
                    ),
                    new(text["Effective"], isDraft ? text["Later"] : CertificateTerms.Moment(certificate.Effective)),
                    new(
                        text["Expires"],
                        isDraft ? text["Later"]
                            : certificate.Expires is { } expires ? CertificateTerms.Moment(expires)
                            : text["Expires.Never"]
                    ),
                    new(
                        text["Supersedes"],
                        certificate.Supersedes is { } before
                            ? text.Get("Supersedes.Value", before)
                            : text["Supersedes.None"]
                    ),
                ]),
                new ReportText(text["Issue.Words"]),
            ]
        );
    }
}
