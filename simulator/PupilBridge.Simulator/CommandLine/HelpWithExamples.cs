using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>The usual help text, followed by examples.</summary>
internal sealed class HelpWithExamples(params string[] examples) : SynchronousCommandLineAction
{
    private readonly HelpAction usual = new();

    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        usual.Invoke(parseResult);
        var output = parseResult.InvocationConfiguration.Output;
        output.WriteLine("Examples:");
        foreach (var example in examples)
        {
            output.WriteLine("  " + example);
        }

        output.WriteLine();
        output.WriteLine("Exit codes: 0 ended as asked; 1 the line could not be opened; 2 wrong words.");
        return 0;
    }
}
