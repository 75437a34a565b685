namespace PupilBridge.Simulator.Faults;

/// <summary>
/// What a receiver makes of 8N1 characters that were sent at another speed: start bit low, eight data bits with the lowest
/// first, stop bit high; the receiver waits for a falling edge and then takes each bit at its middle, by its own clock.
/// </summary>
/// <remarks>
/// Common practice of asynchronous receivers (no one source). A character whose stop bit is low is a framing error and is
/// handed on as a zero byte, as a Linux terminal in raw mode does; after one the receiver waits for the line to go high.
/// </remarks>
public static class SerialBits
{
    private const int BitsPerCharacter = 10;

    /// <summary>Reads characters at another speed than they were sent at.</summary>
    /// <param name="sent">The characters, sent without a pause; the line is high before and after.</param>
    /// <param name="sentBaud">The speed they were sent at, above 0.</param>
    /// <param name="readBaud">The speed they are read at, above 0.</param>
    /// <returns>What the receiver hands on.</returns>
    public static byte[] ReadAt(ReadOnlySpan<byte> sent, int sentBaud, int readBaud)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sentBaud);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(readBaud);
        var bits = Bits(sent);
        var step = (double)sentBaud / readBaud;
        var read = new List<byte>();
        for (var at = NextStart(bits, 0); at < bits.Length; )
        {
            var value = 0;
            for (var bit = 0; bit < 8; bit++)
            {
                value |= Level(bits, at + ((1.5 + bit) * step)) ? 1 << bit : 0;
            }

            var stop = at + (9.5 * step);
            var isFramed = Level(bits, stop);
            read.Add(isFramed ? (byte)value : (byte)0);
            at = NextStart(bits, isFramed ? stop : NextHigh(bits, stop));
        }

        return [.. read];
    }

    private static bool[] Bits(ReadOnlySpan<byte> sent)
    {
        var bits = new bool[sent.Length * BitsPerCharacter];
        for (var i = 0; i < sent.Length; i++)
        {
            for (var bit = 0; bit < 8; bit++)
            {
                bits[(i * BitsPerCharacter) + 1 + bit] = (sent[i] >> bit & 1) == 1;
            }

            bits[(i * BitsPerCharacter) + 9] = true;
        }

        return bits;
    }

    private static bool Level(bool[] bits, double at) => at >= bits.Length || bits[(int)at];

    // A start is seen at once where the line is low already, else at the next falling edge.
    private static double NextStart(bool[] bits, double from)
    {
        var at = from;
        while (at < bits.Length && Level(bits, at))
        {
            at = Math.Floor(at) + 1;
        }

        return at;
    }

    private static double NextHigh(bool[] bits, double from)
    {
        var at = from;
        while (!Level(bits, at))
        {
            at = Math.Floor(at) + 1;
        }

        return at;
    }
}

/// <summary>For a while, the two ends of the line have different speeds.</summary>
/// <param name="sentBaud">The speed of sending.</param>
/// <param name="readBaud">The speed of reading during an episode.</param>
/// <param name="episodes">When.</param>
public sealed class WrongBaud(int sentBaud, int readBaud, Episodes episodes) : ByteFault(FaultNames.Baud)
{
    /// <inheritdoc/>
    protected override void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        ArgumentNullException.ThrowIfNull(episodes);
        if (arriving.IsEmpty)
        {
            return;
        }

        if (!episodes.IsOn(now))
        {
            leaving(arriving);
            return;
        }

        CountFired();
        var read = SerialBits.ReadAt(arriving, sentBaud, readBaud);
        if (read.Length > 0)
        {
            leaving(read);
        }
    }
}
