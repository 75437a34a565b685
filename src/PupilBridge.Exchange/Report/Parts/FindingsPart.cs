using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>What every criterion said, with its source: met and cannot tell in full, the rest by name, and nothing left out.</summary>
internal static class FindingsPart
{
    public static ReportSection Of(SignedRecord record, NumberedSources sources)
    {
        var text = ReportWords.Text;
        if (record.Findings.Count == 0)
        {
            var why = record.FormatVersion < 2 ? "Findings.OldFormat" : "Findings.NotAsked";
            return new(text["Section.Findings"], [new ReportText(text[why])]);
        }

        List<ReportPart> parts = [];
        var looks = new FurtherLooks();
        Full(parts, record, ("met", "Findings.Met"), sources, looks);
        if (parts.Count == 0)
            parts.Add(new ReportText(text["Findings.NoneMet"]));
        Full(parts, record, ("cannot-tell", "Findings.CannotTell"), sources, looks);
        Named(parts, record, "not-met", "Findings.NotMet");
        Named(parts, record, "not-examined", "Findings.NotExamined");
        return new(text["Section.Findings"], parts) { StandsInColumns = true };
    }

    /// <summary>Findings of one criterion that ask for the same further look stand together: what they share is said once.</summary>
    private static void Full(
        List<ReportPart> parts,
        SignedRecord record,
        (string Verdict, string Head) kind,
        NumberedSources sources,
        FurtherLooks looks
    )
    {
        ReportItem[] items =
        [
            .. record
                .Findings.Where(f => f.Verdict == kind.Verdict)
                .GroupBy(f => (f.Criterion, f.FurtherLook))
                .Select(alike => FindingItem.Of([.. alike], sources, looks)),
        ];
        if (items.Length > 0)
            parts.Add(new ReportList(ReportWords.Text[kind.Head], items));
    }

    private static void Named(List<ReportPart> parts, SignedRecord record, string verdict, string head)
    {
        var names = record
            .Findings.Where(f => f.Verdict == verdict)
            .GroupBy(f => f.Criterion)
            .Select(group => Name(group.Key, [.. group]))
            .ToArray();
        if (names.Length > 0)
            parts.Add(new ReportText(ReportWords.Text.Get(head, string.Join("; ", names))) { IsSmall = true });
    }

    private static string Name(string criterion, RecordFinding[] findings)
    {
        var where = findings.Select(FindingItem.Where).Where(w => w.Length > 0).ToArray();
        return where.Length == 0 ? criterion : $"{criterion} ({string.Join(", ", where)})";
    }
}
