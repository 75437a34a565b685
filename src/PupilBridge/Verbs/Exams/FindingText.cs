using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Exams;

/// <summary>What the criteria say, as text for a terminal.</summary>
internal static class FindingText
{
    private static readonly (string Verdict, string Head)[] Heads =
    [
        ("met", "Criteria met"),
        ("cannot-tell", "Cannot tell"),
        ("not-met", "Not met, which excludes nothing"),
        ("not-examined", "Not examined"),
    ];

    /// <summary>Prints all findings, with numbers, cautions, further look, sources and entries.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="findings">The findings.</param>
    public static void Print(Call call, IReadOnlyList<FindingView> findings)
    {
        foreach (var (verdict, head) in Heads)
        {
            var these = findings.Where(finding => finding.Verdict == verdict).ToList();
            if (these.Count == 0)
            {
                continue;
            }

            call.Print();
            call.Print($"{head}:");
            foreach (var finding in these)
            {
                Print(call, finding);
            }
        }
    }

    /// <summary>Prints what is met and what cannot be told, a sentence each, with the cautions.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="findings">The findings.</param>
    public static void PrintShort(Call call, IReadOnlyList<FindingView> findings)
    {
        foreach (var (verdict, head) in Heads.Take(2))
        {
            var these = findings.Where(finding => finding.Verdict == verdict).ToList();
            if (these.Count == 0)
            {
                continue;
            }

            call.Print();
            call.Print($"{head}:");
            foreach (var finding in these)
            {
                call.Print($"  {finding.Sentence}");
            }

            foreach (var caution in these.SelectMany(finding => finding.Cautions).Distinct())
            {
                call.Print($"    {caution}");
            }
        }
    }

    private static void Print(Call call, FindingView finding)
    {
        call.Print($"  {finding.Sentence} ({finding.Criterion}{Entries(finding)})");
        if (Numbers(finding) is { } numbers)
        {
            call.Print($"    {numbers}");
        }

        foreach (var caution in finding.Cautions)
        {
            call.Print($"    {caution}");
        }

        if (finding.FurtherLook.Length > 0)
        {
            call.Print($"    Further look: {finding.FurtherLook}");
        }

        if (finding.Sources.Count > 0)
        {
            call.Print($"    Source: {string.Join("; ", finding.Sources)}");
        }
    }

    private static string Entries(FindingView finding) =>
        finding.Raw.Count == 0
            ? ""
            : $", {(finding.Raw.Count == 1 ? "entry" : "entries")} {string.Join(", ", finding.Raw.Select(raw => raw.Sequence))}";

    private static string? Numbers(FindingView finding)
    {
        var value = finding.Value is { } known ? $"{Text(known)}{Uncertainty(finding)} {finding.Unit}" : null;
        var limit = finding.Limit is { } most ? $"limit {Text(most)} {finding.Unit}" : null;
        return value is null && limit is null ? null : string.Join(", ", new[] { value, limit }.OfType<string>());
    }

    private static string Uncertainty(FindingView finding) =>
        finding.ExpandedUncertainty is { } u ? $" ± {Text(u)}" : "";

    private static string Text(decimal number) =>
        Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.0#", CultureInfo.InvariantCulture);
}
