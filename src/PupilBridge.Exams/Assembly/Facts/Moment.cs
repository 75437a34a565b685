using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>When something happened, and by which entry of the journal that is known.</summary>
/// <param name="Sequence">The entry's place in the journal.</param>
/// <param name="At">When it happened, as the entry says.</param>
/// <param name="UncertaintyMilliseconds">How far that may be off, in ms; 0 for what a person or the service entered.</param>
/// <param name="Boot">The instrument's boot, where the instrument said it.</param>
/// <param name="Tick">The instrument's own time, where the instrument said it.</param>
public sealed record Moment(
    JournalSequence Sequence,
    UtcTime At,
    long UncertaintyMilliseconds,
    BootNumber? Boot,
    Tick? Tick
)
{
    /// <summary>The earliest time at which it can have happened.</summary>
    public UtcTime Earliest => At.PlusMilliseconds(-Math.Max(0, UncertaintyMilliseconds));

    /// <summary>The latest time at which it can have happened.</summary>
    public UtcTime Latest => At.PlusMilliseconds(Math.Max(0, UncertaintyMilliseconds));

    /// <summary>
    /// Milliseconds from an earlier moment to this one: by the instrument's own ticks if both are of one boot, else by the
    /// estimated times.
    /// </summary>
    /// <param name="earlier">The other moment.</param>
    /// <returns>Milliseconds; negative if that moment is later.</returns>
    public long MillisecondsSince(Moment earlier)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        if (Boot is not null && Boot == earlier.Boot && Tick is { } now && earlier.Tick is { } then)
            return new UtcTime(now.Milliseconds).MillisecondsSince(new UtcTime(then.Milliseconds));
        return At.MillisecondsSince(earlier.At);
    }
}

/// <summary>A stretch of the journal, both ends included.</summary>
/// <param name="First">Its first entry.</param>
/// <param name="Last">Its last entry.</param>
public readonly record struct SequenceRange(JournalSequence First, JournalSequence Last)
{
    /// <summary>Whether an entry lies in it.</summary>
    /// <param name="sequence">The entry's place.</param>
    /// <returns>True if it does.</returns>
    public bool Contains(JournalSequence sequence) => sequence >= First && sequence <= Last;
}
