using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Certificates.Parts;

/// <summary>What must be seen first: that it is a draft, what the rule says of each scale (what failed before what passed), and what is amiss.</summary>
internal static class OutcomeMarks
{
    private static readonly string[] FromBestToWorst = ["pass", "conditional-pass", "conditional-fail", "fail"];

    public static IEnumerable<ReportMark> Of(Certificate certificate, bool isDraft)
    {
        var text = CertificateTerms.Text;
        if (isDraft)
            yield return new(text["Stamp"], text["Mark.Draft"], true);
        foreach (var eye in CertificateTerms.Eyes.OrderByDescending(eye => Rank(certificate.Scales[eye].Statement)))
            yield return Scale(certificate, eye);
        foreach (var eye in CertificateTerms.Eyes.Where(eye => certificate.Scales[eye].Line.IsBent))
            yield return new(text.Get("Mark.Bent", CertificateTerms.Of(eye)), text["Mark.Bent.Words"], true);
        if (AreExpired(certificate))
            yield return new(
                text["Mark.Discs"],
                text.Get("Mark.Discs.Words", certificate.Discs.Name, certificate.Discs.Expires!),
                true
            );
        if (Untimely(certificate.Timing) is { Length: > 0 } untimely)
            yield return new(text["Mark.Timing"], text.Get("Mark.Timing.Words", untimely), true);
    }

    /// <summary>Whether a statement says that the limit was surely or likely exceeded.</summary>
    /// <param name="statement">The statement's word; one that is not known counts as the worst.</param>
    public static bool IsBeyond(string statement) => Rank(statement) >= 2;

    private static int Rank(string statement)
    {
        var place = Array.IndexOf(FromBestToWorst, statement);
        return place < 0 ? FromBestToWorst.Length : place;
    }

    private static ReportMark Scale(Certificate certificate, Eye eye)
    {
        var text = CertificateTerms.Text;
        var scale = certificate.Scales[eye];
        var worst = scale.Means.MaxBy(mean => (Rank(mean.Statement), Math.Abs(mean.Error)))!;
        return new(
            text.Get("Mark.Scale", CertificateTerms.Of(eye), text.Of("Statement", scale.Statement)),
            text.Get(
                "Mark.Scale.Words",
                text.Of($"Means.{certificate.Rule.Kind}", scale.Statement),
                worst.Disc,
                Amounts.Millimetres(worst.Diameter),
                Amounts.SignedMillimetres(worst.Error),
                Amounts.Uncertainty(worst.Expanded),
                Amounts.Millimetres(certificate.Rule.Limit)
            ),
            IsBeyond(scale.Statement)
        );
    }

    private static bool AreExpired(Certificate certificate) =>
        certificate.Discs.Expires is { } last && string.CompareOrdinal(certificate.Run.Ended[..10], last) > 0;

    private static string Untimely(CertifiedTiming? timing) =>
        string.Join(
            "; ",
            (timing?.Eyes ?? [])
                .Where(eye => eye.Verdict is "too-short" or "too-long" || eye.GapVerdict is "too-short" or "too-long")
                .Select(TimingPart.Name)
        );
}
