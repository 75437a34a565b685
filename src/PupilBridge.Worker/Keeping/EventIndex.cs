using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using LossCause = PupilBridge.Exams.Entries.LossCause;

namespace PupilBridge.Worker.Keeping;

/// <summary>
/// Which events of which boot of which instrument the journal holds or is about to hold, and which entries of people.
/// It is what makes a second copy of either impossible. Its size goes with the instruments, not with the journal. A start takes it
/// from the entry index. Not safe for several threads: whoever has it guards it.
/// </summary>
internal sealed class EventIndex
{
    /// <summary>
    /// How many boots of one instrument are remembered. An instrument only ever sends events of its present boot, so the
    /// few before it are there for the case that a line delivers something late.
    /// </summary>
    internal const int KeptBoots = 8;

    private readonly Dictionary<SerialNumber, List<BootRecord>> instruments = [];
    private readonly Dictionary<SerialNumber, uint> commands = [];

    /// <summary>What the journal holds of a boot.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="boot">The boot.</param>
    /// <returns>The position; null if nothing of that boot is known.</returns>
    public EventPosition? Find(SerialNumber serial, BootNumber boot) => Record(serial, boot)?.Position;

    /// <summary>The boots of an instrument whose end is not told, without the present one.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="present">Its present boot.</param>
    public IReadOnlyList<OpenBoot> OpenBoots(SerialNumber serial, BootNumber present) =>
        instruments.TryGetValue(serial, out var boots)
            ? [.. boots.Where(b => !b.Ended && b.Boot != present).Select(b => new OpenBoot(b.Boot, b.Submitted))]
            : [];

    /// <summary>A number for a command that was never used with this instrument, and is given to nobody else.</summary>
    /// <param name="serial">The instrument.</param>
    public uint NextCommand(SerialNumber serial) => commands[serial] = commands.GetValueOrDefault(serial) + 1;

    /// <summary>Whether an entry is no second copy of an event that is known already.</summary>
    /// <param name="entry">The entry.</param>
    public bool IsNew(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => IsNew(reported.Serial, reported.Boot, reported.Sequence),
            EventsLost { Last: not null } lost => IsNew(lost.Serial, lost.Boot, lost.First),
            EventsLost lost => Record(lost.Serial, lost.Boot) is not { Ended: true },
            _ => true,
        };

    /// <summary>Notes an entry that was given to the journal, or that is read from it.</summary>
    /// <param name="entry">The entry.</param>
    public void Take(JournalEntry entry)
    {
        switch (entry)
        {
            case InstrumentMet met:
                Open(met.Serial, met.Boot);
                break;
            case InstrumentReported reported:
                Take(reported);
                break;
            case EventsLost lost:
                Take(lost);
                break;
            case CommandWished wished:
                commands[wished.Serial] = (uint)Math.Max(commands.GetValueOrDefault(wished.Serial), wished.Number);
                break;
        }
    }

    /// <summary>Notes that an entry is on disk.</summary>
    /// <param name="entry">The entry.</param>
    public void SetDurable(JournalEntry entry)
    {
        if (entry is InstrumentReported reported)
            Record(reported.Serial, reported.Boot)?.SetDurable(reported.Sequence);
        else if (entry is EventsLost { Last: { } last } lost)
            Record(lost.Serial, lost.Boot)?.SetDurable(last);
    }

    /// <summary>Writes all that is known.</summary>
    public void Write(BinaryWriter writer)
    {
        writer.Write(instruments.Count);
        foreach (var (serial, boots) in instruments)
        {
            writer.Write(serial.Value);
            writer.Write(boots.Count);
            boots.ForEach(boot => boot.Write(writer));
        }

        writer.Write(commands.Count);
        foreach (var (serial, number) in commands)
        {
            writer.Write(serial.Value);
            writer.Write(number);
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static EventIndex Read(BinaryReader reader)
    {
        var index = new EventIndex();
        for (var left = reader.ReadInt32(); left > 0; left--)
        {
            var serial = new SerialNumber(reader.ReadString());
            var boots = index.instruments[serial] = [];
            for (var of = reader.ReadInt32(); of > 0; of--)
                boots.Add(BootRecord.Read(reader));
        }

        for (var left = reader.ReadInt32(); left > 0; left--)
            index.commands[new SerialNumber(reader.ReadString())] = reader.ReadUInt32();
        return index;
    }

    private void Take(InstrumentReported reported)
    {
        var record = Open(reported.Serial, reported.Boot);
        record.Take(reported.Sequence, EventLine.CrcOf(reported.RawLine));
        if (EventLine.KindOf(reported.RawLine) is "OFF")
            record.End();
    }

    private void Take(EventsLost lost)
    {
        var record = Open(lost.Serial, lost.Boot);
        if (lost.Cause == LossCause.BootEnded)
            record.End();
        if (lost.Last is { } last)
            record.Take(last, null);
    }

    private bool IsNew(SerialNumber serial, BootNumber boot, long first) =>
        Record(serial, boot) is not { } record || first > record.Submitted;

    private BootRecord? Record(SerialNumber serial, BootNumber boot) =>
        instruments.TryGetValue(serial, out var boots) ? boots.Find(b => b.Boot == boot) : null;

    private BootRecord Open(SerialNumber serial, BootNumber boot)
    {
        if (!instruments.TryGetValue(serial, out var boots))
            instruments[serial] = boots = [];
        if (boots.Find(b => b.Boot == boot) is { } known)
            return known;
        var record = new BootRecord(boot);
        boots.Add(record);
        if (boots.Count > KeptBoots)
            boots.RemoveAt(0);
        return record;
    }
}
