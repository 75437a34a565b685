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
        // Room first, or the queue doubles its memory for one more than it ever keeps.
        while (prints.Count >= KeptPrints)
            prints.Dequeue();
        prints.Enqueue(new EventPrint(last, crc));
    }

    public void End() => Ended = true;

    public void SetDurable(long last) => Durable = Math.Max(Durable, last);

    /// <summary>Writes all that is known.</summary>
    public void Write(BinaryWriter writer)
    {
        writer.Write(boot.Value);
        writer.Write(Submitted);
        writer.Write(Durable);
        writer.Write(Ended);
        writer.Write(prints.Count);
        foreach (var print in prints)
        {
            writer.Write(print.Sequence);
            writer.Write(print.Crc is not null);
            writer.Write(print.Crc ?? 0);
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static BootRecord Read(BinaryReader reader)
    {
        var record = new BootRecord(new BootNumber(reader.ReadUInt64()))
        {
            Submitted = reader.ReadInt64(),
            Durable = reader.ReadInt64(),
            Ended = reader.ReadBoolean(),
        };
        for (var left = reader.ReadInt32(); left > 0; left--)
        {
            var sequence = reader.ReadInt64();
            var hasCrc = reader.ReadBoolean();
            var crc = reader.ReadUInt32();
            record.prints.Enqueue(new EventPrint(sequence, hasCrc ? crc : null));
        }

        return record;
    }
}
