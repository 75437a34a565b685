using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Lines;

/// <summary>
/// Cuts what one side sends at its line ends and loses no byte. A run without an end is given out in pieces, so that a stream
/// that never ends a line needs no more memory than one line.
/// </summary>
/// <param name="way">Who sends.</param>
public sealed class LineSplitter(LineWay way)
{
    /// <summary>The bytes within which a line must have ended: one more than the longest line.</summary>
    private const int Window = WireLimits.MaxLineBytes + 1;

    private readonly List<byte> waiting = new(Window);

    /// <summary>Takes bytes in the pieces in which they arrive.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="at">When they arrived, counted from when the port was opened.</param>
    /// <returns>The lines that ended, and the pieces of runs that are too long.</returns>
    public IReadOnlyList<WireLine> Take(ReadOnlySpan<byte> bytes, TimeSpan at)
    {
        var lines = new List<WireLine>();
        foreach (var b in bytes)
        {
            if (b == (byte)'\n')
            {
                lines.Add(new WireLine(at, way, waiting.ToArray(), IsEnded: true));
                waiting.Clear();
                continue;
            }

            waiting.Add(b);
            if (waiting.Count == Window)
            {
                lines.Add(new WireLine(at, way, waiting.ToArray(), IsEnded: false));
                waiting.Clear();
            }
        }

        return lines;
    }

    /// <summary>Gives out what has begun and not ended, when no more will come.</summary>
    /// <param name="at">The moment.</param>
    /// <returns>The piece; null if nothing waits.</returns>
    public WireLine? Rest(TimeSpan at)
    {
        if (waiting.Count == 0)
        {
            return null;
        }

        var rest = new WireLine(at, way, waiting.ToArray(), IsEnded: false);
        waiting.Clear();
        return rest;
    }
}
