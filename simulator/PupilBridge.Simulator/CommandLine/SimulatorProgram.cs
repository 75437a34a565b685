using System.CommandLine;
using System.CommandLine.Help;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>The simulator's own program.</summary>
internal static class SimulatorProgram
{
    public static async Task<int> RunAsync(
        string[] words,
        TextWriter output,
        TextWriter error,
        TimeProvider time,
        CancellationToken stop,
        TextReader? input = null
    )
    {
        var options = new ServeOptions();
        var root = new RootCommand(
            "A stand-in pupil tester with simulated eyes, for those who build and test without hardware."
        );
        root.Options.Clear();
        root.Add(
            new HelpOption("--help", "-h")
            {
                Description = "Show this help.",
                Action = new HelpWithExamples("PupilBridge.Simulator serve --model quay-a --link /tmp/quay-a"),
            }
        );
        root.Add(new VersionOption("--version") { Description = "Show the program's version." });
        root.Add(options.Command());
        var parsed = root.Parse(words);
        if (parsed.Errors.Count > 0)
        {
            foreach (var fault in parsed.Errors)
            {
                await error.WriteLineAsync(fault.Message).ConfigureAwait(false);
            }

            await error.WriteLineAsync("See 'PupilBridge.Simulator serve --help'.").ConfigureAwait(false);
            return 2;
        }

        return parsed.Action is null
            ? await new ServeVerb(options, input ?? TextReader.Null, output, error, time)
                .RunAsync(parsed, stop)
                .ConfigureAwait(false)
            : parsed.Invoke(new InvocationConfiguration { Output = output, Error = error });
    }
}
