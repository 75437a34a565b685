using System.Buffers;

namespace PupilBridge.Instrument.Wire;

/// <summary>What to do with the bytes at hand.</summary>
public enum FrameKind : byte
{
    /// <summary>There is no whole line yet; nothing was consumed.</summary>
    NeedMore = 0,

    /// <summary>A line stands at the front.</summary>
    Line = 1,

    /// <summary>The bytes at the front are no line; drop them.</summary>
    Discard = 2,
}

/// <summary>What the framer found at the front of the bytes at hand.</summary>
/// <param name="Kind">What to do.</param>
/// <param name="Length">For a line: the bytes of its content, without CR and LF.</param>
/// <param name="Consumed">How many bytes to take off the front; 0 for <see cref="FrameKind.NeedMore"/>.</param>
/// <param name="TooLong">For a discard: an over-long run begins here. Count it once; the discards that end it say false.</param>
/// <param name="Resyncing">Give this to the next call: whether the bytes up to the next LF belong to an over-long run.</param>
public readonly record struct Frame(FrameKind Kind, int Length, int Consumed, bool TooLong, bool Resyncing);

/// <summary>
/// Finds lines in a stream of bytes. One pure question, "what stands at the front?", with three answers; no buffer of its
/// own, no exception. It looks at no more than 121 bytes for one answer while in step, so that a stream that never ends a
/// line cannot make it hold or scan more, and a line that comes byte by byte costs a bounded scan for each byte.
/// </summary>
/// <remarks>
/// In step, the LF must stand within the first 121 bytes (119 of content, a CR that is tolerated, the LF). If it does not,
/// these bytes are noise, another protocol or the wrong baud rate: all up to and including the next LF is dropped, wherever
/// that is, and the line after it is tried again. Blank lines are dropped without being counted.
/// </remarks>
public static class LineFramer
{
    private const byte LineFeed = (byte)'\n';
    private const byte CarriageReturn = (byte)'\r';
    private const int Window = WireLimits.MaxLineBytes + 1;

    /// <summary>Says what stands at the front of the bytes.</summary>
    /// <param name="bytes">What has arrived and was not consumed yet.</param>
    /// <param name="resyncing">
    /// <see cref="Frame.Resyncing"/> of the answer before; true at first where a line may have begun before the port opened.
    /// </param>
    /// <returns>The answer.</returns>
    public static Frame Next(ReadOnlySpan<byte> bytes, bool resyncing)
    {
        if (resyncing)
            return Skip(bytes.IndexOf(LineFeed), bytes.Length);
        var end = bytes[..Math.Min(bytes.Length, Window)].IndexOf(LineFeed);
        if (end < 0)
            return bytes.Length < Window ? default : new Frame(FrameKind.Discard, 0, Window, true, true);
        var length = end > 0 && bytes[end - 1] == CarriageReturn ? end - 1 : end;
        return InStep(length, end + 1);
    }

    /// <summary>Says what stands at the front of a chain of buffers.</summary>
    /// <param name="bytes">What has arrived and was not consumed yet.</param>
    /// <param name="resyncing"><see cref="Frame.Resyncing"/> of the answer before.</param>
    /// <returns>The answer.</returns>
    public static Frame Next(in ReadOnlySequence<byte> bytes, bool resyncing)
    {
        var first = bytes.FirstSpan;
        if (bytes.IsSingleSegment || (!resyncing && (first.Length >= Window || first.Contains(LineFeed))))
            return Next(first, resyncing);
        if (resyncing)
        {
            // One segment at a time: the run may be of any length, the answer is an int.
            return first.IsEmpty ? default : Skip(first.IndexOf(LineFeed), first.Length);
        }

        Span<byte> window = stackalloc byte[Window];
        var head = bytes.Slice(0, Math.Min(bytes.Length, Window));
        head.CopyTo(window);
        return Next(window[..(int)head.Length], resyncing: false);
    }

    private static Frame InStep(int length, int consumed) =>
        length switch
        {
            0 => new Frame(FrameKind.Discard, 0, consumed, false, false),
            > WireLimits.MaxContentBytes => new Frame(FrameKind.Discard, 0, consumed, true, false),
            _ => new Frame(FrameKind.Line, length, consumed, false, false),
        };

    private static Frame Skip(int end, int available) =>
        end >= 0 ? new Frame(FrameKind.Discard, 0, end + 1, false, false)
        : available == 0 ? new Frame(FrameKind.NeedMore, 0, 0, false, true)
        : new Frame(FrameKind.Discard, 0, available, false, true);
}
