namespace PupilBridge.Conformance.Checks;

/// <summary>One thing that an instrument must do.</summary>
/// <param name="Key">Its name in reports, for a program; never changes.</param>
/// <param name="Section">The section of docs/protocol.md that asks for it.</param>
/// <param name="Asks">What is asked, as a sentence.</param>
public sealed record Check(string Key, string Section, string Asks);

/// <summary>How a check went.</summary>
public enum CheckOutcome
{
    /// <summary>It was examined and nothing was found against it.</summary>
    Passed = 1,

    /// <summary>Something was seen that the section does not allow.</summary>
    Failed = 2,

    /// <summary>It could not be examined; that says nothing about the instrument.</summary>
    NotExamined = 3,
}

/// <summary>A check with its outcome.</summary>
/// <param name="Check">The check.</param>
/// <param name="Outcome">How it went.</param>
/// <param name="Saw">What was seen, or why it was not examined.</param>
/// <param name="Line">The line that shows it, escaped as in a recording; null if no single line does.</param>
public sealed record CheckResult(Check Check, CheckOutcome Outcome, string Saw, string? Line);
