using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Conformance.Checks;

namespace PupilBridge.Verbs.Instruments;

/// <summary>A report of checks as a person reads it.</summary>
internal static class CheckText
{
    /// <summary>Prints it: a line for each check, and below it what was seen.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="report">The report.</param>
    public static void Print(Call call, CheckReport report)
    {
        call.Print(report.Instrument ?? "No instrument could be met.");
        call.Print();
        foreach (var result in report.Results)
        {
            call.Print(
                $"{Word(result.Outcome), -12}  {result.Check.Key, -23}  section {result.Check.Section, -4} {result.Check.Asks}"
            );
            call.Print($"              {result.Saw}");
            if (result.Line is { } line)
            {
                call.Print($"              {line}");
            }
        }

        call.Print();
        call.Print(Sum(report));
    }

    /// <summary>The exit code, with a remark where it needs one.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="report">The report.</param>
    public static ExitCode Verdict(Call call, CheckReport report)
    {
        if (!report.IsClean)
        {
            var isLine = report
                .Results.Where(r => r.Outcome == CheckOutcome.Failed)
                .All(r => r.Check.Key.StartsWith("line.", StringComparison.Ordinal));
            call.Remark(
                isLine
                    ? "Nothing is charged to the instrument; the line or this computer lost or delayed something. Mend that and check again."
                    : "The instrument breaks the protocol; docs/protocol.md has the sections that are named."
            );
            return ExitCode.Damaged;
        }

        if (report.Instrument is null)
        {
            call.Remark("Nothing could be examined; the first checks of the report say why.");
            return ExitCode.Refused;
        }

        return ExitCode.Done;
    }

    /// <summary>How many there are of each outcome.</summary>
    /// <param name="report">The report.</param>
    /// <param name="outcome">Which.</param>
    public static int Count(CheckReport report, CheckOutcome outcome) =>
        report.Results.Count(r => r.Outcome == outcome);

    private static string Sum(CheckReport report) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Count(report, CheckOutcome.Passed)} passed, {Count(report, CheckOutcome.Failed)} failed, {Count(report, CheckOutcome.NotExamined)} not examined. What was not examined is neither right nor wrong."
        );

    private static string Word(CheckOutcome outcome) =>
        outcome switch
        {
            CheckOutcome.Passed => "passed",
            CheckOutcome.Failed => "FAILED",
            _ => "not examined",
        };
}
