using PupilBridge.Conformance.Lines;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Tracing;

/// <summary>One line with its meaning.</summary>
/// <param name="Line">The line as it crossed.</param>
/// <param name="Type">Its type as it stands on the line, for example <c>BEAT</c>; empty where it has none.</param>
/// <param name="IsDropped">Whether a receiver drops it.</param>
/// <param name="Words">Its fields in words, or why it is dropped.</param>
public sealed record TracedLine(WireLine Line, string Type, bool IsDropped, string Words);

/// <summary>Decodes lines one after the other, as a receiver does that follows docs/protocol.md, section 4.</summary>
public sealed class TraceReader
{
    private const string TooLong =
        "dropped, too long: no line end within 121 bytes; wrong baud rate, or no line of this protocol";

    private readonly HashSet<LineWay> running = [];
    private readonly HashSet<LineWay> begun = [];

    /// <summary>Decodes the next line.</summary>
    /// <param name="line">The line; those of one side in the order in which they crossed.</param>
    /// <returns>The line with its meaning.</returns>
    public TracedLine Read(WireLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var isFirst = begun.Add(line.Way);
        if (running.Contains(line.Way))
        {
            if (line.IsEnded)
            {
                running.Remove(line.Way);
            }

            return new TracedLine(
                line,
                "",
                IsDropped: true,
                "dropped: the rest of the run before it, up to the line end"
            );
        }

        if (!line.IsEnded)
        {
            // A piece of 121 bytes is a run that is too long; a shorter one is the last, cut by the end of the listening.
            var isRun = line.Bytes.Length > WireLimits.MaxLineBytes;
            if (isRun)
            {
                running.Add(line.Way);
            }

            return new TracedLine(line, "", IsDropped: true, isRun ? TooLong : "not ended when the listening did");
        }

        if (line.Bytes.IsEmpty || line.Text == "\r")
        {
            return new TracedLine(line, "", IsDropped: true, "a blank line; it means nothing");
        }

        return Decode(line, isFirst);
    }

    private static TracedLine Decode(WireLine line, bool isFirst)
    {
        string words;
        LineFault fault;
        if (line.Way == LineWay.FromInstrument)
        {
            words = InstrumentLineDecoder.TryDecode(line.Bytes.Span, out var said, out fault)
                ? InstrumentWords.Of(said)
                : "";
        }
        else
        {
            words = HostLineDecoder.TryDecode(line.Bytes.Span, out var said, out fault) ? HostWords.Of(said) : "";
        }

        return fault.Kind == LineFaultKind.None
            ? new TracedLine(line, TypeOf(line.Text), IsDropped: false, words)
            : new TracedLine(line, TypeOf(line.Text), IsDropped: true, Why(fault, isFirst));
    }

    private static string Why(LineFault fault, bool isFirst)
    {
        var why = fault.Kind == LineFaultKind.TooLong ? TooLong : $"dropped: {fault.Describe()}";
        return isFirst && fault.Kind is LineFaultKind.NoCheck or LineFaultKind.BadCheck
            ? why + " (The first line: the port may have been opened in its middle.)"
            : why;
    }

    /// <summary>What stands before the first comma, if it can be a type at all.</summary>
    private static string TypeOf(string text)
    {
        var end = text.IndexOfAny([',', '*']);
        return end is > 0 and <= 16 && text.AsSpan(0, end).IndexOfAnyExceptInRange('A', 'Z') < 0 ? text[..end] : "";
    }
}
