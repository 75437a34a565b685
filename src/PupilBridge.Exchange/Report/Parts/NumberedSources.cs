using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>Numbers the sources of findings in the order in which they are named first, so that each stands in the report once.</summary>
/// <remarks>For one report.</remarks>
internal sealed class NumberedSources
{
    private readonly List<string> known = [];

    /// <summary>The numbers of some sources, as a finding points to them.</summary>
    /// <param name="sources">The sources.</param>
    /// <returns>Such as <c>[1, 4]</c>; empty for none.</returns>
    public string Of(IEnumerable<string> sources)
    {
        int[] numbers = [.. sources.Distinct().Select(NumberOf).Order()];
        return numbers.Length == 0 ? "" : $"[{string.Join(", ", numbers.Select(n => ReportWords.Number(n)))}]";
    }

    /// <summary>All that were named; none where none was.</summary>
    public IEnumerable<ReportSection> Section()
    {
        if (known.Count > 0)
            yield return new(ReportWords.Text["Section.Sources"], [new ReportNotes(known)]) { StandsInColumns = true };
    }

    private int NumberOf(string source)
    {
        if (!known.Contains(source))
            known.Add(source);
        return known.IndexOf(source) + 1;
    }
}
