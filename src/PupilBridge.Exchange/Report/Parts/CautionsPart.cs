using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>The cautions that go with what was found, each once.</summary>
internal static class CautionsPart
{
    public static IEnumerable<ReportSection> Of(SignedRecord record)
    {
        ReportItem[] items =
        [
            .. record.Findings.SelectMany(f => f.Cautions).Distinct().Select(caution => new ReportItem(caution, "")),
        ];
        if (items.Length > 0)
            yield return new(ReportWords.Text["Section.Cautions"], [new ReportList("", items)]);
    }
}
