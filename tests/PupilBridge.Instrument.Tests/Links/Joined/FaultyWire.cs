namespace PupilBridge.Instrument.Tests.Links.Joined;

/// <summary>
/// One direction of a serial line that does to bytes what serial lines do: flips, drops and doubles them, adds noise, loses or
/// repeats whole lines, delays, and splits reads anywhere. After an unplug, bytes that waited in a driver may still come
/// out, as if they were new. What it never does: let newer bytes overtake older ones, or deliver a changed line whose CRC is
/// right (one in 2^32).
/// </summary>
internal sealed class FaultyWire(Random random)
{
    private readonly Queue<(TimeSpan Due, byte[] Bytes)> underWay = [];
    private readonly List<byte[]> stale = [];

    /// <summary>The share of lines to which something happens.</summary>
    internal double FaultRate { get; set; }

    internal void Send(ReadOnlySpan<byte> line, TimeSpan now)
    {
        var delay = TimeSpan.FromMilliseconds(random.NextDouble() * 30);
        foreach (var bytes in Spoil(line.ToArray()))
            underWay.Enqueue((now + delay, bytes));
    }

    /// <summary>What has arrived by now, as one read.</summary>
    internal byte[] Read(TimeSpan now)
    {
        var read = new List<byte>();
        while (underWay.TryPeek(out var next) && next.Due <= now)
        {
            underWay.Dequeue();
            // A read may end in the middle of a line; the rest comes with the next one.
            var cut =
                FaultRate > 0 && random.NextDouble() < 0.2 ? random.Next(next.Bytes.Length + 1) : next.Bytes.Length;
            read.AddRange(next.Bytes[..cut]);
            if (cut == next.Bytes.Length)
                continue;
            var rest = underWay.ToArray();
            underWay.Clear();
            underWay.Enqueue((now + TimeSpan.FromMilliseconds(1), next.Bytes[cut..]));
            foreach (var later in rest)
                underWay.Enqueue(later);
            break;
        }

        return [.. read];
    }

    internal void Unplug()
    {
        if (random.NextDouble() < 0.5)
            stale.AddRange(underWay.Select(u => u.Bytes));
        underWay.Clear();
    }

    /// <summary>Lets bytes out that waited since the unplug, before anything newer.</summary>
    internal void ReleaseStale(TimeSpan now)
    {
        foreach (var bytes in stale)
            underWay.Enqueue((now, bytes));
        stale.Clear();
    }

    private List<byte[]> Spoil(byte[] line)
    {
        if (random.NextDouble() >= FaultRate)
            return [line];
        var at = random.Next(line.Length);
        switch (random.Next(6))
        {
            case 0:
                line[at] ^= (byte)(1 << random.Next(8));
                return [line];
            case 1:
                return
                [
                    [.. line[..at], .. line[(at + 1)..]],
                ];
            case 2:
                return
                [
                    [.. line[..at], line[at], .. line[at..]],
                ];
            case 3:
                return [];
            case 4:
                return [line, [.. line]];
            default:
                var noise = new byte[random.Next(1, 200)];
                random.NextBytes(noise);
                return [noise, line];
        }
    }
}
