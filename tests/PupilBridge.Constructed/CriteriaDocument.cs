using System.Globalization;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Instrument;

namespace PupilBridge.Constructed;

/// <summary>One row of the table in docs/criteria.md.</summary>
public sealed record ConstructedRow(int Number, string Name, string Done, string Expected);

/// <summary>docs/criteria.md, from which the tests take the constructed exams and what they come to.</summary>
public static class CriteriaDocument
{
    // Criteria that speak of each eye apart; all others name an eye only as what was found.
    private static readonly HashSet<string> OfEachEye =
    [
        "slow-to-dilate",
        "direct-poor",
        "afferent-pattern",
        "efferent-pattern",
        "light-near-dissociation",
        "shape-not-round",
        "dim-not-larger",
        "size-beyond-age-and-light",
        "size-beyond-decade",
        "size-changed",
        "eye-status-unreliable",
    ];

    public static string Text { get; } = File.ReadAllText(Find()).ReplaceLineEndings("\n");

    public static IReadOnlyList<ConstructedRow> Rows { get; } =
    [
        .. Text.Split('\n')
            .Select(line => line.Split('|'))
            .Where(cells => cells.Length == 7 && int.TryParse(cells[1], out _))
            .Select(cells => new ConstructedRow(
                int.Parse(cells[1], CultureInfo.InvariantCulture),
                cells[2].Trim(),
                cells[3].Trim(),
                cells[5].Trim()
            )),
    ];

    /// <summary>What stands in a cell: <c>key verdict, key verdict</c>; several keys may share a verdict.</summary>
    public static SortedDictionary<string, string> Expected(string cell)
    {
        SortedDictionary<string, string> result = new(StringComparer.Ordinal);
        foreach (var item in cell.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (item == "nothing")
                continue;
            var parts = item.Split(' ');
            foreach (var key in parts[..^1].SelectMany(Spread))
                result.Add(key, parts[^1]);
        }

        return result;
    }

    public static SortedDictionary<string, string> Told(IEnumerable<Finding> findings)
    {
        SortedDictionary<string, string> result = new(StringComparer.Ordinal);
        foreach (var finding in findings)
            result.Add(Key(finding), Said(finding));
        return result;
    }

    private static string Said(Finding finding) =>
        finding.Verdict switch
        {
            CriterionVerdict.Met => "+" + (OfEachEye.Contains(finding.Criterion) ? "" : Side(finding.Eye)),
            CriterionVerdict.NotMet => "-",
            CriterionVerdict.CannotTell => "?" + finding.Reason,
            _ => "o",
        };

    private static string Key(Finding finding)
    {
        var key = finding.Criterion;
        if (OfEachEye.Contains(finding.Criterion))
            key += ":" + Side(finding.Eye);
        if (finding.Light is { } light && finding.Criterion != "size-beyond-decade")
            key += ":" + Words.Of(light);
        return finding.Criterion != "timing-off"
            ? key
            : key
                + finding.Block switch
                {
                    Block.Direct => ":direct",
                    Block.SwingShort => ":short",
                    _ => ":long",
                };
    }

    // a:R/L stands for a:R and a:L, and so with lights and blocks.
    private static IEnumerable<string> Spread(string key)
    {
        IEnumerable<string> keys = [""];
        foreach (var part in key.Split(':'))
            keys = keys.SelectMany(k => part.Split('/').Select(p => k.Length == 0 ? p : $"{k}:{p}"));
        return keys;
    }

    private static string Side(Eye? eye) =>
        eye switch
        {
            Eye.Right => "R",
            Eye.Left => "L",
            _ => "",
        };

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
                return Path.Combine(folder.FullName, "docs", "criteria.md");
        }

        throw new FileNotFoundException(
            "docs/criteria.md stands beside PupilBridge.sln, above the folder of the tests."
        );
    }
}
