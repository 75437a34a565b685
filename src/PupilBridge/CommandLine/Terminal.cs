namespace PupilBridge.CommandLine;

/// <summary>
/// Where a command writes: data on <see cref="Out"/>, everything about the work on <see cref="Error"/>. A command asks
/// here, and nowhere else, whether a person is watching.
/// </summary>
internal sealed class Terminal
{
    /// <summary>Standard output: what was asked for, and nothing else.</summary>
    public required TextWriter Out { get; init; }

    /// <summary>Standard error: faults, remarks, progress.</summary>
    public required TextWriter Error { get; init; }

    /// <summary>Whether a person reads the output as it comes; false when it goes to a file or a pipe.</summary>
    public required bool IsInteractive { get; init; }

    /// <summary>Columns of the window; 100 where there is none.</summary>
    public int Width { get; init; } = 100;

    /// <summary>The process's own standard streams.</summary>
    /// <returns>A terminal on the console, as it is at this moment.</returns>
    public static Terminal OfProcess() =>
        new()
        {
            Out = Console.Out,
            Error = Console.Error,
            IsInteractive = !Console.IsOutputRedirected,
            Width = Console.IsOutputRedirected ? 100 : Math.Max(40, Console.WindowWidth),
        };

    /// <summary>Reports a failure on standard error: what happened, then what to do next.</summary>
    /// <param name="failure">The failure.</param>
    public void Report(CommandFailure failure)
    {
        Error.WriteLine($"pupilbridge: {failure.Message}");
        if (failure.Next.Length > 0)
        {
            Error.WriteLine(failure.Next);
        }
    }
}
