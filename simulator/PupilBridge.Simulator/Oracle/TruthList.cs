using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Oracle;

/// <summary>One event that a simulated instrument really produced.</summary>
/// <param name="Serial">The instrument's true serial number.</param>
/// <param name="Boot">The boot.</param>
/// <param name="Sequence">Its number within the boot, from 1.</param>
/// <param name="Tick">The instrument's tick.</param>
/// <param name="Text">Kind and fields, as on the wire.</param>
public sealed record TruthEvent(SerialNumber Serial, BootNumber Boot, long Sequence, Tick Tick, string Text);

/// <summary>Events that an instrument itself lost before a host had acknowledged them.</summary>
/// <param name="Boot">The boot.</param>
/// <param name="First">The first one.</param>
/// <param name="Last">The last one.</param>
/// <param name="Cause">Why.</param>
public sealed record TruthLoss(BootNumber Boot, long First, long Last, string Cause);

/// <summary>
/// The oracle: every event that an instrument ever produced and what it knows to have lost, kept apart from the code that
/// sends, receives and records.
/// </summary>
public sealed class TruthList
{
    private readonly List<TruthEvent> events = [];
    private readonly List<TruthLoss> losses = [];
    private readonly List<BootNumber> boots = [];
    private readonly Lock gate = new();
    private long lastSequence;

    /// <summary>All events, in the order in which they happened.</summary>
    public IReadOnlyList<TruthEvent> Events
    {
        get
        {
            lock (gate)
            {
                return [.. events];
            }
        }
    }

    /// <summary>What the instrument lost.</summary>
    public IReadOnlyList<TruthLoss> Losses
    {
        get
        {
            lock (gate)
            {
                return [.. losses];
            }
        }
    }

    /// <summary>The boots, in order.</summary>
    public IReadOnlyList<BootNumber> Boots
    {
        get
        {
            lock (gate)
            {
                return [.. boots];
            }
        }
    }

    /// <summary>How many events the present boot has produced.</summary>
    public long LastSequence
    {
        get
        {
            lock (gate)
            {
                return lastSequence;
            }
        }
    }

    internal void Booted(BootNumber boot)
    {
        lock (gate)
        {
            boots.Add(boot);
            lastSequence = 0;
        }
    }

    internal long Happened(SerialNumber serial, in InstrumentEvent happened, string text)
    {
        lock (gate)
        {
            events.Add(new TruthEvent(serial, boots[^1], ++lastSequence, happened.Tick, text));
            return lastSequence;
        }
    }

    /// <summary>The memory is full: the gap at its oldest end covers these numbers now.</summary>
    internal void Overflowed(BootNumber boot, long first, long last)
    {
        const string Cause = "memory overflow";
        lock (gate)
        {
            // The gap grows: its earlier, shorter form is replaced.
            if (
                losses.Count > 0
                && losses[^1] is { Cause: Cause } before
                && before.Boot == boot
                && before.Last + 1 >= first
            )
            {
                losses[^1] = before with { Last = last };
                return;
            }

            losses.Add(new TruthLoss(boot, first, last, Cause));
        }
    }

    internal void Lost(BootNumber boot, long first, long last, string cause)
    {
        lock (gate)
        {
            losses.Add(new TruthLoss(boot, first, last, cause));
        }
    }
}
