namespace PupilBridge.Simulator.Faults;

/// <summary>From some byte on, the line stands still for a while; then all arrives in order.</summary>
/// <param name="probability">Probability for each byte to be the one that waits.</param>
/// <param name="longest">The longest wait; each is evenly spread up to it.</param>
/// <param name="chance">Its chance.</param>
public sealed class DelayedBytes(double probability, TimeSpan longest, Chance chance) : ByteFault(FaultNames.Delay)
{
    private readonly Queue<(byte Value, TimeSpan Due)> held = new();
    private TimeSpan blockedUntil;

    /// <inheritdoc/>
    protected override void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        foreach (var value in arriving)
        {
            if (chance.Happens(probability))
            {
                CountFired();
                var until = now + (longest * chance.NextUnit());
                blockedUntil = until > blockedUntil ? until : blockedUntil;
            }

            held.Enqueue((value, blockedUntil));
        }

        LetGo(leaving, due => due <= now);
    }

    /// <inheritdoc/>
    protected override void Release(PieceSink leaving) => LetGo(leaving, _ => true);

    private void LetGo(PieceSink leaving, Func<TimeSpan, bool> isDue)
    {
        var piece = new List<byte>();
        while (held.TryPeek(out var next) && isDue(next.Due))
        {
            piece.Add(held.Dequeue().Value);
        }

        if (piece.Count > 0)
        {
            leaving([.. piece]);
        }
    }
}

/// <summary>
/// Reads end in the middle of lines: what arrived is handed on a few bytes at a time, the rest when time has passed. A
/// backlog beyond <see cref="LongestBacklog"/> is handed on at once, so that the line stays as fast as it was.
/// </summary>
/// <param name="chance">Its chance.</param>
public sealed class SplitReads(Chance chance) : ByteFault(FaultNames.Split)
{
    /// <summary>The most bytes that wait, in bytes.</summary>
    public const int LongestBacklog = 512;

    private readonly List<byte> waiting = [];

    /// <inheritdoc/>
    protected override void Spoil(ReadOnlySpan<byte> arriving, TimeSpan now, PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        waiting.AddRange(arriving);
        do
        {
            var length = Math.Min(waiting.Count, chance.NextInteger(1, 65));
            if (length == 0)
            {
                return;
            }

            if (length < waiting.Count)
            {
                CountFired();
            }

            leaving([.. waiting[..length]]);
            waiting.RemoveRange(0, length);
        } while (waiting.Count > LongestBacklog);
    }

    /// <inheritdoc/>
    protected override void Release(PieceSink leaving)
    {
        ArgumentNullException.ThrowIfNull(leaving);
        if (waiting.Count > 0)
        {
            leaving([.. waiting]);
            waiting.Clear();
        }
    }
}
