using PupilBridge.Instrument;

namespace PupilBridge.Worker.Keeping;

/// <summary>What is known of the events of one boot. Not safe for several threads.</summary>
/// <param name="boot">The boot.</param>
internal sealed class BootRecord(BootNumber boot)
{
    /// <summary>How many checksums are kept: twice what an instrument must be able to keep and send again.</summary>
    internal const int KeptPrints = 1024;

    private readonly Queue<EventPrint> prints = [];

    /// <summary>Whether the journal tells how this boot ended.</summary>
    public bool Ended { get; private set; }

    public BootNumber Boot => boot;

    /// <summary>The last number given to the journal; 0 for none.</summary>
    public long Submitted { get; private set; }

    /// <summary>The last number on disk; 0 for none.</summary>
    public long Durable { get; private set; }

    public EventPosition Position => new(boot, Submitted, Durable, Ended, [.. prints]);

    /// <summary>Takes all numbers up to one.</summary>
    /// <param name="last">The last number.</param>
    /// <param name="crc">The checksum of its line; null where it is lost.</param>
    public void Take(long last, uint? crc)
    {
        Submitted = Math.Max(Submitted, last);
        prints.Enqueue(new EventPrint(last, crc));
        while (prints.Count > KeptPrints)
            prints.Dequeue();
    }

    public void End() => Ended = true;

    public void SetDurable(long last) => Durable = Math.Max(Durable, last);
}
