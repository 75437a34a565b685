namespace PupilBridge.Ports;

/// <summary>
/// Holds one direction of a made-up line to a real line's speed: 10 bits a byte (8N1), in pieces of a sending chip's
/// buffer, so that bytes trickle as they do in life.
/// </summary>
/// <param name="baud">Bits a second; null for no limit.</param>
/// <param name="time">The clock.</param>
internal sealed class LinePace(int? baud, TimeProvider time)
{
    // The usual sending buffer of a serial chip (16550) holds 16 bytes.
    private const int ChipBytes = 16;

    // Timers wake late by a millisecond or more; this much lateness is made up for by the next pieces.
    private static readonly TimeSpan Lateness = TimeSpan.FromMilliseconds(20);

    private long freeAt = time.GetTimestamp();

    /// <summary>How many of so many bytes go as one piece.</summary>
    internal int Piece(int bytes) => baud is null ? bytes : Math.Min(bytes, ChipBytes);

    /// <summary>Books the line for so many bytes.</summary>
    /// <returns>How long it is until the last of them has gone; 0 without a limit.</returns>
    internal TimeSpan Reserve(int bytes)
    {
        if (baud is not { } speed)
        {
            return TimeSpan.Zero;
        }

        var now = time.GetTimestamp();
        var earliest = now - (long)(Lateness.TotalSeconds * time.TimestampFrequency);
        freeAt = Math.Max(freeAt, earliest) + (long)(bytes * 10.0 / speed * time.TimestampFrequency);
        return freeAt > now ? time.GetElapsedTime(now, freeAt) : TimeSpan.Zero;
    }

    /// <summary>Waits while so many bytes go over the line.</summary>
    internal Task PassAsync(int bytes)
    {
        var wait = Reserve(bytes);
        return wait > TimeSpan.Zero ? Task.Delay(wait, time) : Task.CompletedTask;
    }
}
