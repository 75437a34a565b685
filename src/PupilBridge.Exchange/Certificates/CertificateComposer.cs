using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Certificates.Parts;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Certificates;

/// <summary>From a certificate to what its documents say.</summary>
internal static class CertificateComposer
{
    /// <summary>Composes it.</summary>
    /// <param name="certificate">The certificate.</param>
    /// <param name="json">The text it was read from, for its digest.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    /// <returns>The document; nothing of it depends on a clock.</returns>
    public static ReportDocument Compose(Certificate certificate, string json, bool isDraft)
    {
        var text = CertificateTerms.Text;
        var serial = certificate.Instrument.Serial;
        return new()
        {
            Title = isDraft ? text["Title.Draft"] : text.Get("Title", certificate.Number),
            Running = isDraft
                ? text.Get("Running.Draft", serial, certificate.Run.Number)
                : text.Get(
                    "Running",
                    certificate.Number,
                    serial,
                    CertificateTerms.Moment(certificate.Issued),
                    certificate.IssuedBy
                ),
            Dated = CertificateTerms.Read(isDraft ? certificate.Run.Ended : certificate.Issued),
            IsLong = true,
            Stamp = isDraft ? text["Stamp"] : null,
            Marks = [.. OutcomeMarks.Of(certificate, isDraft)],
            Sections =
            [
                IssuePart.Of(certificate, isDraft),
                RunPart.Of(certificate),
                DiscsPart.Of(certificate.Discs),
                RulePart.Of(certificate.Rule),
                .. CertificateTerms.Eyes.Select(eye => ScalePart.Of(certificate, eye)),
                TimingPart.Of(certificate.Timing),
                LampsPart.Of(certificate.Lamps),
                RepeatabilityPart.Of(certificate.Repeatability),
                BoundsPart.Of(certificate),
                CheckPart.Of(certificate, json, isDraft),
                .. CertificateTerms.Eyes.Select(eye => ReadingsAnnex.Of(certificate, eye)),
            ],
            Caution = text["Caution"],
        };
    }
}
