using System.Globalization;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>What every criterion said, with its source: met and cannot tell in full, the rest by name, and nothing left out.</summary>
internal static class FindingsPart
{
    public static ReportSection Of(SignedRecord record)
    {
        var text = ReportWords.Text;
        if (record.Findings.Count == 0)
        {
            var why = record.FormatVersion < 2 ? "Findings.OldFormat" : "Findings.NotAsked";
            return new(text["Section.Findings"], [new ReportText(text[why])]);
        }

        List<ReportPart> parts = [];
        Full(parts, record, "met", "Findings.Met");
        if (parts.Count == 0)
            parts.Add(new ReportText(text["Findings.NoneMet"]));
        Full(parts, record, "cannot-tell", "Findings.CannotTell");
        Named(parts, record, "not-met", "Findings.NotMet");
        Named(parts, record, "not-examined", "Findings.NotExamined");
        return new(text["Section.Findings"], parts);
    }

    private static void Full(List<ReportPart> parts, SignedRecord record, string verdict, string head)
    {
        ReportItem[] items = [.. record.Findings.Where(f => f.Verdict == verdict).Select(Item)];
        if (items.Length > 0)
            parts.Add(new ReportList(ReportWords.Text[head], items));
    }

    private static void Named(List<ReportPart> parts, SignedRecord record, string verdict, string head)
    {
        var names = record
            .Findings.Where(f => f.Verdict == verdict)
            .GroupBy(f => f.Criterion)
            .Select(group => Name(group.Key, [.. group]))
            .ToArray();
        if (names.Length > 0)
            parts.Add(new ReportText(ReportWords.Text.Get(head, string.Join("; ", names))));
    }

    private static ReportItem Item(RecordFinding finding)
    {
        var text = ReportWords.Text;
        List<string> beside = [text.Get("Finding.Criterion", finding.Criterion)];
        if (finding.Value is { } value)
        {
            var uncertainty = finding.ExpandedUncertainty is { } u ? $" ± {Number(u, finding.Unit)}" : "";
            beside.Add(
                text.Get("Finding.Value", $"{Number(value, finding.Unit)}{uncertainty} {finding.Unit}".TrimEnd())
            );
        }

        if (finding.Limit is { } limit)
            beside.Add(text.Get("Finding.Limit", $"{limit} {finding.Unit}".TrimEnd()));
        if (finding.Sources.Count > 0)
            beside.Add(text.Get("Finding.Sources", string.Join(" | ", finding.Sources)));
        if (finding.FurtherLook.Length > 0)
            beside.Add(text.Get("Finding.FurtherLook", finding.FurtherLook));
        return new(finding.Sentence, string.Join(' ', beside.Select(Closed)));
    }

    /// <summary>Ends a part as a sentence, unless it is one.</summary>
    private static string Closed(string part) => part[^1] is '.' or '?' or '!' ? part : part + ".";

    /// <summary>Sizes to a hundredth of a millimetre, as everywhere in the report; other values as the record has them.</summary>
    private static string Number(string value, string? unit) =>
        unit == "mm" && decimal.TryParse(value, CultureInfo.InvariantCulture, out var number)
            ? Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.00", CultureInfo.InvariantCulture)
            : value;

    private static string Name(string criterion, RecordFinding[] findings)
    {
        var where = findings
            .Select(f =>
                string.Join(
                    ' ',
                    new[] { Part("Short", f.Eye), Part("Light", f.Light), Part("Block", f.Block) }.Where(w =>
                        w.Length > 0
                    )
                )
            )
            .Where(w => w.Length > 0)
            .ToArray();
        return where.Length == 0 ? criterion : $"{criterion} ({string.Join(", ", where)})";
    }

    private static string Part(string group, string? word) => word is null ? "" : ReportWords.Of(group, word);
}
