using System.CommandLine;
using System.CommandLine.Invocation;

namespace PupilBridge.CommandLine;

/// <summary>
/// Marks a command that holds other commands and does something by itself as well. The parser takes a command with an action for
/// complete without a further word; the work itself is done by <see cref="Runner"/>, as for every command.
/// </summary>
internal sealed class OwnWork : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult) =>
        throw new InvalidOperationException("The runner does the work of a command.");
}
