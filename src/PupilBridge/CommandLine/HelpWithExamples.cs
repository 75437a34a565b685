using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace PupilBridge.CommandLine;

/// <summary>The usual help text, followed by the command's examples and by the exit codes it can end with.</summary>
internal sealed class HelpWithExamples : SynchronousCommandLineAction
{
    private readonly HelpAction usual = new();

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        usual.Invoke(parseResult);
        var output = parseResult.InvocationConfiguration.Output;
        if (parseResult.CommandResult.Command is not Verb verb)
        {
            return 0;
        }

        output.WriteLine(verb.Examples.Count == 1 ? "Example:" : "Examples:");
        foreach (var example in verb.Examples)
        {
            output.WriteLine($"  {example.Line}");
            output.WriteLine($"      {example.Says}");
        }

        output.WriteLine();
        output.WriteLine("Exit codes:");
        foreach (var code in verb.Exits)
        {
            output.WriteLine($"  {(int)code, 3}  {ExitCodes.Meaning(code)}");
        }

        return 0;
    }
}
