using System.CommandLine;

namespace PupilBridge.CommandLine;

/// <summary>One invocation of a command: what was parsed, where to write, and what time it is.</summary>
/// <param name="Parsed">The parsed command line.</param>
/// <param name="Terminal">Where to write.</param>
/// <param name="Environment">The surroundings that the program was started in.</param>
internal sealed record Call(ParseResult Parsed, Terminal Terminal, Surroundings Environment)
{
    /// <summary>The clock of this invocation.</summary>
    public TimeProvider Time => Environment.Time;

    /// <summary>The value of an option, given or default.</summary>
    /// <typeparam name="T">Its type.</typeparam>
    /// <param name="option">The option.</param>
    /// <returns>The value; null where none was given and there is no default.</returns>
    public T? Get<T>(Option<T> option) => Parsed.GetValue(option);

    /// <summary>The value of an argument.</summary>
    /// <typeparam name="T">Its type.</typeparam>
    /// <param name="argument">The argument.</param>
    /// <returns>The value; null where none was given and there is no default.</returns>
    public T? Get<T>(Argument<T> argument) => Parsed.GetValue(argument);

    /// <summary>Whether an option stands on the command line.</summary>
    /// <param name="option">The option.</param>
    /// <returns>False when only its default counts.</returns>
    public bool IsGiven(Option option) => Parsed.GetResult(option) is { Implicit: false };

    /// <summary>Prints one line of data.</summary>
    /// <param name="line">The line.</param>
    public void Print(string line = "") => Terminal.Out.WriteLine(line);

    /// <summary>Remarks on the work on standard error.</summary>
    /// <param name="line">The line.</param>
    public void Remark(string line) => Terminal.Error.WriteLine(line);
}
