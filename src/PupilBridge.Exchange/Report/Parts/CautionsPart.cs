using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>The cautions that go with what was found, each once.</summary>
internal static class CautionsPart
{
    public static IEnumerable<ReportSection> Of(SignedRecord record)
    {
        string[] all = [.. record.Findings.SelectMany(f => f.Cautions).Distinct()];
        ReportItem[] items =
        [
            .. all.Where(caution => !IsSaidElsewhere(caution, all)).Select(c => new ReportItem(c, "")),
        ];
        if (items.Length > 0)
        {
            yield return new(ReportWords.Text["Section.Cautions"], [new ReportList("", items)])
            {
                StandsInColumns = true,
            };
        }
    }

    /// <summary>Whether it stands word for word within another caution, or in the one that ends every report.</summary>
    private static bool IsSaidElsewhere(string caution, string[] all) =>
        all.Append(ChartText.Caution)
            .Any(other => other != caution && other.Contains(caution, StringComparison.Ordinal));
}
