using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;

namespace PupilBridge.Verbs.Instruments;

/// <summary>A report of checks as a program reads it.</summary>
/// <param name="Instrument">Who was examined; null if no instrument could be met.</param>
/// <param name="Port">Where.</param>
/// <param name="Started">When.</param>
/// <param name="Passed">How many passed.</param>
/// <param name="Failed">How many failed.</param>
/// <param name="NotExamined">How many were not examined.</param>
/// <param name="Checks">Each check.</param>
internal sealed record CheckJson(
    string? Instrument,
    string Port,
    DateTimeOffset Started,
    int Passed,
    int Failed,
    int NotExamined,
    IReadOnlyList<CheckResultJson> Checks
)
{
    /// <summary>Takes over a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="port">The port's name.</param>
    /// <param name="plan">The plan of the run.</param>
    public static CheckJson Of(CheckReport report, string port, CheckPlan plan) =>
        new(
            report.Instrument,
            port,
            plan.Started,
            CheckText.Count(report, CheckOutcome.Passed),
            CheckText.Count(report, CheckOutcome.Failed),
            CheckText.Count(report, CheckOutcome.NotExamined),
            [
                .. report.Results.Select(r => new CheckResultJson(
                    r.Check.Key,
                    r.Check.Section,
                    r.Check.Asks,
                    r.Outcome,
                    r.Saw,
                    r.Line
                )),
            ]
        );
}

/// <summary>One check as a program reads it.</summary>
/// <param name="Key">Its name.</param>
/// <param name="Section">The section of docs/protocol.md.</param>
/// <param name="Asks">What the section asks.</param>
/// <param name="Outcome">How it went.</param>
/// <param name="Saw">What was seen, or why it was not examined.</param>
/// <param name="Line">The line that shows it.</param>
internal sealed record CheckResultJson(
    string Key,
    string Section,
    string Asks,
    CheckOutcome Outcome,
    string Saw,
    string? Line
);
