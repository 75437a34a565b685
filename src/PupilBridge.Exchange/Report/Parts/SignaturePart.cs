using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Who signed which version, and how the paper is held against the log.</summary>
internal static class SignaturePart
{
    public static ReportSection Of(OutgoingRecord outgoing, ReportSetting setting)
    {
        var text = ReportWords.Text;
        var record = outgoing.Record;
        List<ReportFact> facts =
        [
            new(
                text["Signature"],
                outgoing.Signature is { } signed
                    ? text.Get(
                        "Signature.Value",
                        signed.Who,
                        ReportWords.Moment(signed.At, setting.Zone),
                        record.Version,
                        signed.Sequence
                    )
                    : text["Signature.None"]
            ),
            new(text["Digest"], outgoing.Signature?.Digest ?? SignedRecordText.Digest(SignedRecordText.Write(record))),
        ];
        if (record.PreviousDigest is { } before)
            facts.Add(new(text["PreviousDigest"], before));
        facts.Add(
            new(
                text["Entries"],
                string.Join(
                    ", ",
                    record.Journal.Select(r =>
                        r.First == r.Last ? ReportWords.Number(r.First) : text.Get("Entries.Range", r.First, r.Last)
                    )
                )
            )
        );
        facts.Add(new(text["Program"], record.ProgramVersion));
        if (outgoing.Head is { } head)
            facts.Add(new(text["Head"], $"{ReportWords.Number(head.Sequence)}:{head.Hash}"));
        return new(
            text["Section.Signature"],
            [
                new ReportFacts(facts),
                new ReportText(
                    outgoing.Head is null ? text["Check.NoHead"] : text.Get("Check.Words", record.Exam, record.Version)
                )
                {
                    IsSmall = true,
                },
            ]
        );
    }
}
