using System.Collections.Immutable;

namespace PupilBridge.Instrument.Links;

/// <summary>Why events are lost for good.</summary>
public enum LossCause
{
    /// <summary>The instrument's memory overflowed; it says so itself.</summary>
    MemoryOverflow = 1,

    /// <summary>The instrument does not keep them any more.</summary>
    NoLongerKept = 2,

    /// <summary>Another host acknowledged them.</summary>
    TakenByOtherHost = 3,

    /// <summary>This host acknowledged them, but they are not in its journal: the journal was lost or set back.</summary>
    MissingFromJournal = 4,

    /// <summary>The boot ended; what came after the last one known, if anything, is not known.</summary>
    BootEnded = 5,
}

/// <summary>How a command ended.</summary>
public enum CommandOutcome
{
    /// <summary>Carried out.</summary>
    Done = 1,

    /// <summary>The instrument refused it.</summary>
    Refused = 2,

    /// <summary>The instrument does not know it.</summary>
    Unknown = 3,

    /// <summary>The instrument stayed busy.</summary>
    Busy = 4,

    /// <summary>No reply came: it may or may not have been carried out.</summary>
    NoAnswer = 5,

    /// <summary>It was never sent: there is no link.</summary>
    NotSent = 6,
}

/// <summary>What the host's side of a link wants done, or tells.</summary>
public abstract record HostLinkOutput
{
    private HostLinkOutput() { }

    /// <summary>Send this line.</summary>
    /// <param name="Line">The line.</param>
    public sealed record Send(HostLine Line) : HostLinkOutput;

    /// <summary>
    /// Ask the journal how far it has this boot, everything counted that was handed over before; answer with
    /// <see cref="HostLinkInput.PositionKnown"/>.
    /// </summary>
    /// <param name="Serial">The instrument.</param>
    /// <param name="Boot">The boot.</param>
    public sealed record AskPosition(SerialNumber Serial, BootNumber Boot) : HostLinkOutput;

    /// <summary>The instrument said who it is. Told once per opening, and again when anything in it changed.</summary>
    /// <param name="Identity">Who it is.</param>
    /// <param name="RawLines">The lines that said it, in order.</param>
    /// <param name="At">When it was complete.</param>
    public sealed record Met(InstrumentIdentity Identity, ImmutableArray<ReadOnlyMemory<byte>> RawLines, TimeSpan At)
        : HostLinkOutput;

    /// <summary>Write this event to the journal: it is the next in order.</summary>
    /// <param name="Event">The event.</param>
    /// <param name="Crc">The CRC of its line, the fingerprint to be given back with a position.</param>
    /// <param name="Raw">Its line, verbatim.</param>
    /// <param name="At">When it arrived.</param>
    public sealed record Accept(InstrumentEvent Event, uint Crc, ReadOnlyMemory<byte> Raw, TimeSpan At)
        : HostLinkOutput;

    /// <summary>Write to the journal that these events are lost for good.</summary>
    /// <param name="Serial">The instrument.</param>
    /// <param name="Boot">The boot.</param>
    /// <param name="First">The first one lost.</param>
    /// <param name="Last">The last one; null where nobody knows how many.</param>
    /// <param name="Cause">Why.</param>
    /// <param name="OtherHost">The host that acknowledged them; the default for every other cause.</param>
    /// <param name="Raw">The line that said so; empty if none did.</param>
    /// <param name="At">When it became known.</param>
    public sealed record Lost(
        SerialNumber Serial,
        BootNumber Boot,
        long First,
        long? Last,
        LossCause Cause,
        HostId OtherHost,
        ReadOnlyMemory<byte> Raw,
        TimeSpan At
    ) : HostLinkOutput;

    /// <summary>A line told of a loss that is not taken by its word; the instrument is asked again.</summary>
    /// <param name="First">The first number that would be lost.</param>
    /// <param name="Last">The last one.</param>
    /// <param name="Possible">Whether it is taken if a second line tells of it; false if no instrument can have had so many events.</param>
    public sealed record LossDoubted(long First, long Last, bool Possible) : HostLinkOutput;

    /// <summary>Write to the journal that a number came again with another content; the first content stands.</summary>
    /// <param name="Boot">The boot.</param>
    /// <param name="Sequence">The number.</param>
    /// <param name="Raw">The line that differs.</param>
    /// <param name="At">When.</param>
    public sealed record Conflicting(BootNumber Boot, long Sequence, ReadOnlyMemory<byte> Raw, TimeSpan At)
        : HostLinkOutput;

    /// <summary>A scale moves; show it, do not record it.</summary>
    /// <param name="Position">Where.</param>
    /// <param name="At">When it arrived.</param>
    public sealed record PositionSeen(LivePosition Position, TimeSpan At) : HostLinkOutput;

    /// <summary>A heartbeat of the present boot.</summary>
    /// <param name="Beat">The heartbeat.</param>
    /// <param name="At">When it arrived.</param>
    public sealed record BeatSeen(Heartbeat Beat, TimeSpan At) : HostLinkOutput;

    /// <summary>The link is up: events flow from here on.</summary>
    /// <param name="Identity">With whom.</param>
    public sealed record Connected(InstrumentIdentity Identity) : HostLinkOutput;

    /// <summary>Another host holds the instrument. The link greets again by itself and gets it when that host is gone.</summary>
    /// <param name="Holder">The other host.</param>
    /// <param name="SecondsSinceHeard">How long it has been silent.</param>
    public sealed record RefusedHeld(HostId Holder, int SecondsSinceHeard) : HostLinkOutput;

    /// <summary>There is no common protocol version.</summary>
    /// <param name="Lowest">The lowest version that the instrument speaks.</param>
    /// <param name="Highest">The highest one.</param>
    public sealed record RefusedVersion(int Lowest, int Highest) : HostLinkOutput;

    /// <summary>Another instrument answers on the same open port. Close it and begin anew.</summary>
    /// <param name="Before">Who answered before.</param>
    /// <param name="Now">Who answers now.</param>
    public sealed record RefusedSerialChanged(SerialNumber Before, SerialNumber Now) : HostLinkOutput;

    /// <summary>No good line for three seconds. Close the port and begin anew.</summary>
    /// <param name="FaultyLines">
    /// Faulty lines since the last good one: 0 means silence; many and never a good one means a wrong baud rate.
    /// </param>
    /// <param name="EverGood">Whether a good line arrived since the port was opened.</param>
    public sealed record Stalled(long FaultyLines, bool EverGood) : HostLinkOutput;

    /// <summary>A command ended.</summary>
    /// <param name="Number">Its number.</param>
    /// <param name="Outcome">How.</param>
    /// <param name="Reason">The instrument's words, or ours.</param>
    public sealed record CommandEnded(uint Number, CommandOutcome Outcome, string Reason) : HostLinkOutput;
}
