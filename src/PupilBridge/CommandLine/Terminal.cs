using System.Text;
using Microsoft.Win32.SafeHandles;

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

    /// <summary>Standard input.</summary>
    public TextReader In { get; init; } = TextReader.Null;

    /// <summary>Reads the next key that a person presses, without showing it; null where nobody types.</summary>
    public Func<ConsoleKeyInfo>? ReadKey { get; init; }

    /// <summary>Columns of the window; 100 where there is none.</summary>
    public int Width { get; init; } = 100;

    /// <summary>The process's own standard streams.</summary>
    /// <returns>A terminal on the console, as it is at this moment.</returns>
    public static Terminal OfProcess() =>
        new()
        {
            Out = StandardOutput(),
            Error = System.Console.Error,
            IsInteractive = !System.Console.IsOutputRedirected,
            In = System.Console.In,
            ReadKey = System.Console.IsInputRedirected ? null : () => System.Console.ReadKey(intercept: true),
            Width = System.Console.IsOutputRedirected ? 100 : Math.Max(40, System.Console.WindowWidth),
        };

    /// <summary>
    /// Standard output; a pipe is written to directly, because the runtime's own writer hides that whoever read it has gone,
    /// and a command that prints for ever would go on for nobody.
    /// </summary>
    private static TextWriter StandardOutput()
    {
        if (OperatingSystem.IsWindows() || !System.Console.IsOutputRedirected)
        {
            return System.Console.Out;
        }

        var stream = new FileStream(new SafeFileHandle(1, ownsHandle: false), FileAccess.Write, bufferSize: 0);
        if (stream.CanSeek)
        {
            // A file has no reader that could go; and others may be writing to the same one.
            return System.Console.Out;
        }

        return new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024);
    }

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
