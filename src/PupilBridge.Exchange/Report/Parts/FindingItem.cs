using System.Globalization;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Findings of one criterion as one item: what they say, then the criterion with its sources, values, and the further look.</summary>
internal static class FindingItem
{
    /// <summary>The item.</summary>
    /// <param name="alike">Findings of one criterion with the same verdict and further look.</param>
    /// <param name="sources">Numbers their sources.</param>
    /// <param name="looks">Knows which further looks were said.</param>
    public static ReportItem Of(RecordFinding[] alike, NumberedSources sources, FurtherLooks looks)
    {
        var text = ReportWords.Text;
        var criterion = alike[0].Criterion;
        var numbers = sources.Of(alike.SelectMany(f => f.Sources));
        List<string> beside = [$"{criterion} {numbers}".TrimEnd()];
        beside.AddRange(alike.Select(f => Values(f, alike.Length > 1)).Where(v => v.Length > 0));
        if (alike[0].FurtherLook.Length > 0)
            beside.Add(text.Get("Finding.FurtherLook", looks.Of(criterion, alike[0].FurtherLook)));
        return new(string.Join(' ', alike.Select(f => f.Sentence)), string.Join(' ', beside.Select(Closed)));
    }

    /// <summary>The eye, light and block of a finding, in short; empty where it is about no one of them.</summary>
    /// <param name="finding">The finding.</param>
    public static string Where(RecordFinding finding) =>
        string.Join(
            ' ',
            new[] { Part("Short", finding.Eye), Part("Light", finding.Light), Part("Block", finding.Block) }.Where(w =>
                w.Length > 0
            )
        );

    /// <summary>Value and limit, unless the sentence has said them.</summary>
    private static string Values(RecordFinding finding, bool isOneOfSeveral)
    {
        var text = ReportWords.Text;
        var said = Said(finding.Sentence);
        List<string> values = [];
        if (finding.Value is { } value)
        {
            var number = Number(value, finding.Unit);
            var uncertainty = finding.ExpandedUncertainty is { } u ? Number(u, finding.Unit) : null;
            // Both are taken out of what was said, so that one number of the sentence never stands for two.
            var isSaid = Takes(said, number) & (uncertainty is null || Takes(said, uncertainty));
            var range = uncertainty is null ? number : $"{number} ± {uncertainty}";
            if (!isSaid)
                values.Add(text.Get("Finding.Value", $"{range} {finding.Unit}".TrimEnd()));
        }

        if (finding.Limit is { } limit && !Takes(said, limit))
            values.Add(text.Get("Finding.Limit", $"{limit} {finding.Unit}".TrimEnd()));
        if (values.Count == 0)
            return "";
        var where = isOneOfSeveral ? Where(finding) : "";
        return where.Length == 0 ? string.Join(", ", values) : $"{where}: {string.Join(", ", values)}";
    }

    /// <summary>The numbers that stand in a sentence.</summary>
    private static List<decimal> Said(string sentence) =>
        [.. sentence.Split([' ', '(', ')', ',', ';', ':']).Select(word => Read(word.TrimEnd('.'))).OfType<decimal>()];

    private static bool Takes(List<decimal> said, string number) => Read(number) is { } wanted && said.Remove(wanted);

    private static decimal? Read(string word) =>
        decimal.TryParse(word, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : null;

    /// <summary>Ends a part as a sentence, unless it is one.</summary>
    private static string Closed(string part) => part[^1] is '.' or '?' or '!' ? part : part + ".";

    /// <summary>Sizes to a hundredth of a millimetre, as everywhere in the report; other values as the record has them.</summary>
    private static string Number(string value, string? unit) =>
        unit == "mm" && decimal.TryParse(value, CultureInfo.InvariantCulture, out var number)
            ? Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.00", CultureInfo.InvariantCulture)
            : value;

    private static string Part(string group, string? word) => word is null ? "" : ReportWords.Of(group, word);
}
