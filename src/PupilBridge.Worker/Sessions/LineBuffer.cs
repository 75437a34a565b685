using PupilBridge.Instrument.Wire;

namespace PupilBridge.Worker.Sessions;

/// <summary>
/// Cuts what arrives, in pieces of any size, into lines. It holds no more than one piece and the beginning of a line.
/// </summary>
internal sealed class LineBuffer
{
    private const int PieceBytes = 4096;

    private readonly byte[] buffer = new byte[PieceBytes + WireLimits.MaxLineBytes];
    private int start;
    private int end;
    private bool resyncing;

    /// <summary>Takes as many bytes as there is room for; take all lines before taking more.</summary>
    /// <param name="bytes">What arrived.</param>
    /// <returns>How many bytes were taken, at least 1.</returns>
    public int Take(ReadOnlySpan<byte> bytes)
    {
        buffer.AsSpan(start..end).CopyTo(buffer);
        (start, end) = (0, end - start);
        var taken = Math.Min(bytes.Length, buffer.Length - end);
        bytes[..taken].CopyTo(buffer.AsSpan(end));
        end += taken;
        return taken;
    }

    /// <summary>The next line, or the next run of bytes that is none.</summary>
    /// <param name="content">The line without its end; empty for a run that is too long to be one.</param>
    /// <returns>False if more bytes are needed.</returns>
    public bool TryNext(out ReadOnlySpan<byte> content)
    {
        while (true)
        {
            var frame = LineFramer.Next(buffer.AsSpan(start..end), resyncing);
            content = frame.Kind == FrameKind.Line ? buffer.AsSpan(start, frame.Length) : default;
            resyncing = frame.Resyncing;
            start += frame.Consumed;
            if (frame.Kind == FrameKind.NeedMore)
                return false;
            if (frame.Kind == FrameKind.Line || frame.TooLong)
                return true;
        }
    }
}
