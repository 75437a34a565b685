using PupilBridge.CommandLine;

namespace PupilBridge.Tests.Support;

/// <summary>Runs the program inside the test's own process, with streams and surroundings of its own.</summary>
internal static class Invoked
{
    public static Task<Outcome> Run(params string[] words) => Run(new Dictionary<string, string?>(), words);

    public static async Task<Outcome> Run(
        IReadOnlyDictionary<string, string?> variables,
        IReadOnlyList<string> words,
        TextReader? typed = null,
        CancellationToken interrupted = default
    )
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var terminal = new Terminal
        {
            Out = TextWriter.Synchronized(output),
            Error = TextWriter.Synchronized(error),
            IsInteractive = false,
            In = typed ?? TextReader.Null,
        };
        var surroundings = new Surroundings(TimeProvider.System, name => variables.GetValueOrDefault(name));
        var runner = new Runner(CommandTree.Build(), terminal, surroundings);
        var code = await runner.RunAsync(words, interrupted);
        return new Outcome((ExitCode)code, output.ToString(), error.ToString());
    }
}

/// <summary>What a run of the program came to.</summary>
internal sealed record Outcome(ExitCode Code, string Out, string Error)
{
    public IReadOnlyList<string> Lines => Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
