using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Tests.Report;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>A draft is not to be taken for a certificate, whichever sheet of it one holds.</summary>
public sealed class DraftTests
{
    private const string Stamp = "DRAFT, NOT A CERTIFICATE";

    public static TheoryData<string> Names => [.. CertificateSamples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_sheet_is_marked_twice(string name)
    {
        using var pdf = new PdfReading(CertificateReading.Pdf(CertificateSamples.Json(name), isDraft: true));
        Assert.All(
            pdf.Pages,
            page =>
            {
                var large = page.Letters.Where(l => l.PointSize > 30).ToList();
                var across = string.Concat(large.Select(l => l.Value));
                Assert.Equal(PdfReading.Squeeze(Stamp), PdfReading.Squeeze(across));
                var small = string.Concat(page.Letters.Except(large).Select(l => l.Value));
                Assert.Contains(PdfReading.Squeeze(Stamp), PdfReading.Squeeze(small), StringComparison.Ordinal);
            }
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void It_has_no_number_no_date_of_issue_and_no_digest(string name)
    {
        var certificate = CertificateSamples.Of(name);
        var json = CertificateSamples.Json(name);
        var (draft, issued) = (CertificateDocuments.Text(json, true), CertificateDocuments.Text(json, false));
        foreach (
            var mark in (string[])
                [
                    $"Calibration certificate {certificate.Number}",
                    $"Number: {certificate.Number}",
                    "SHA-256 of the text:",
                    $"by {certificate.IssuedBy}\n",
                ]
        )
        {
            Assert.Contains(mark, issued, StringComparison.Ordinal);
            Assert.DoesNotContain(mark, draft, StringComparison.Ordinal);
        }

        Assert.StartsWith(
            "Draft of a calibration, not a certificate\nDRAFT, NOT A CERTIFICATE",
            draft,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("DRAFT", issued, StringComparison.Ordinal);
    }

    /// <summary>Moments of issue and validity, and the journal's end, are put in when it is issued: a draft shows none of them.</summary>
    [Fact]
    public void A_draft_of_one_run_is_the_same_whenever_it_is_asked_for()
    {
        var now = CertificateSamples.Of("passing");
        var later = now with
        {
            Number = 13,
            Issued = "2026-01-06T08:00:00.000Z",
            Effective = "2026-01-06T08:00:00.000Z",
            Expires = null,
            JournalHead = "999:ff",
        };
        Assert.Equal(
            CertificateDocuments.Text(Exams.Bench.Certificates.CertificateText.Write(now), true),
            CertificateDocuments.Text(Exams.Bench.Certificates.CertificateText.Write(later), true)
        );
    }
}
