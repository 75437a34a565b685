namespace PupilBridge.CommandLine;

/// <summary>
/// The foreseen end of a command that could not do what was asked: what happened and what to do next, for a person, and
/// the exit code for a script. It is printed on standard error without a stack trace.
/// </summary>
/// <param name="code">The exit code.</param>
/// <param name="what">What happened, to which folder, port, exam or instrument.</param>
/// <param name="next">What to do about it; empty only where <paramref name="what"/> says it already.</param>
internal sealed class CommandFailure(ExitCode code, string what, string next = "") : Exception(what)
{
    /// <summary>The number that the process ends with.</summary>
    public ExitCode Code { get; } = code;

    /// <summary>What to do about it.</summary>
    public string Next { get; } = next;
}
