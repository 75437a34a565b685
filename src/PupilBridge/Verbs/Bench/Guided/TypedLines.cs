using System.Threading.Channels;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Bench.Guided;

/// <summary>
/// The lines that a person types while something else goes on. Reading waits for a whole line and cannot be broken off, so it has a thread
/// of its own that ends with the process.
/// </summary>
internal sealed class TypedLines
{
    private readonly Channel<string> lines = Channel.CreateUnbounded<string>();

    private TypedLines(TextReader from)
    {
        var thread = new Thread(() => Read(from)) { IsBackground = true, Name = "typed lines" };
        thread.Start();
    }

    /// <summary>Begins to read.</summary>
    /// <param name="terminal">Where a person types.</param>
    public static TypedLines Of(Terminal terminal) => new(terminal.In);

    /// <summary>Whether nobody will type any more: the input has ended and all of it was taken.</summary>
    public bool IsOver => lines.Reader.Completion.IsCompleted;

    /// <summary>Takes the next line, if one was typed.</summary>
    /// <returns>The line without blanks around it; null if there is none now.</returns>
    public string? Take() => lines.Reader.TryRead(out var line) ? line.Trim() : null;

    private void Read(TextReader from)
    {
        try
        {
            while (from.ReadLine() is { } line)
            {
                lines.Writer.TryWrite(line);
            }
        }
        catch (Exception gone) when (gone is IOException or ObjectDisposedException)
        {
            // A terminal that was closed types no more.
        }

        lines.Writer.Complete();
    }
}
