using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>States of the eyes, what people remarked, what went wrong, and what was refused: all that a reader must know.</summary>
internal static class RemarksPart
{
    public static IEnumerable<ReportSection> Of(SignedRecord record, ReportSetting setting)
    {
        ReportItem[] items =
        [
            .. record.EyeStatuses.Where(s => s.Counts).Select(Status),
            .. record.Notes.Select(note => Note(note, setting)),
            .. record.Incidents.Select(Incident),
            .. Refused(record),
        ];
        if (items.Length > 0)
            yield return new(ReportWords.Text["Section.Remarks"], [new ReportList("", items)])
            {
                StandsInColumns = true,
            };
    }

    private static ReportItem Status(RecordEyeStatus status) =>
        new(
            ReportWords.Text.Get("Remark.Status", ReportWords.Of("Eye", status.Eye), status.Conditions, status.Who),
            ""
        );

    private static ReportItem Note(RecordNote note, ReportSetting setting) =>
        new(
            ReportWords.Text.Get(
                "Remark.Note",
                note.Text ?? ReportWords.Text["Remark.Erased"],
                note.Who,
                ReportWords.TimeOfDay(ReportWords.Read(note.At), setting.Zone)
            ),
            ""
        );

    private static ReportItem Incident(RecordIncident incident)
    {
        var what = ReportWords.Of("Incident", incident.Kind);
        var detail = incident.Detail.Length > 0 ? $"{what}: {incident.Detail}" : what;
        return new(
            incident.Count > 1
                ? ReportWords.Text.Get("Remark.Often", detail, incident.Count, incident.First, incident.Last)
                : ReportWords.Text.Get("Remark.Once", detail, incident.First),
            ""
        );
    }

    private static IEnumerable<ReportItem> Refused(SignedRecord record)
    {
        foreach (var pairs in record.RefusedPairs)
        {
            var words = ReportWords.Text.Counted(
                "Remark.RefusedPairs",
                pairs.Sequences.Count,
                ReportWords.Of("Eye", pairs.Eye),
                pairs.Sequences.Count,
                ReportWords.Of("Refusal", pairs.Reason)
            );
            yield return new(words, "");
        }

        foreach (var alike in record.RefusedJudgements.GroupBy(j => j.WhyNot))
        {
            var (count, why) = (alike.Count(), ReportWords.Of("Refusal", alike.Key));
            yield return new(ReportWords.Text.Counted("Remark.RefusedJudgements", count, count, why), "");
        }
    }
}
