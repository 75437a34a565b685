using System.CommandLine;

namespace PupilBridge.CommandLine;

/// <summary>
/// A command with what every command of this program owes its user: at least one example and the list of exit codes it
/// can end with. Both are printed by <c>--help</c>.
/// </summary>
/// <param name="name">The word on the command line.</param>
/// <param name="description">One or two sentences for the help text.</param>
internal abstract class Verb(string name, string description) : Command(name, description)
{
    private readonly List<Example> examples = [];
    private readonly SortedSet<ExitCode> exits = [ExitCode.Done, ExitCode.Fault, ExitCode.Usage];

    /// <summary>The examples in the order in which help prints them.</summary>
    public IReadOnlyList<Example> Examples => examples;

    /// <summary>The exit codes that this command can end with, ascending.</summary>
    public IReadOnlyCollection<ExitCode> Exits => exits;

    /// <summary>Adds an example line to the help text.</summary>
    /// <param name="line">A whole command line that works as it stands.</param>
    /// <param name="says">What it does.</param>
    protected void Example(string line, string says) => examples.Add(new Example(line, says));

    /// <summary>Names the exit codes beyond 0, 1 and 2 that this command can end with.</summary>
    /// <param name="codes">The codes.</param>
    protected void EndsWith(params ReadOnlySpan<ExitCode> codes)
    {
        foreach (var code in codes)
        {
            exits.Add(code);
        }
    }

    /// <summary>Sets what the command does.</summary>
    /// <param name="run">The work; it ends with a code or throws <see cref="CommandFailure"/>.</param>
    protected void Does(Func<Call, CancellationToken, Task<ExitCode>> run) => Work = run;

    /// <summary>What the command does; null for a group, which only holds other commands.</summary>
    public Func<Call, CancellationToken, Task<ExitCode>>? Work { get; private set; }
}

/// <summary>One example of a help text.</summary>
/// <param name="Line">The command line.</param>
/// <param name="Says">What it does.</param>
internal sealed record Example(string Line, string Says);
