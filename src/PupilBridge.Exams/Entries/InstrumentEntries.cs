using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>An instrument told who it is.</summary>
public sealed record InstrumentMet : SystemEntry
{
    /// <summary>Its serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The boot that it told of.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The port that it was met on, by the name that the operating system gives.</summary>
    public required string PortName { get; init; }

    /// <summary>
    /// The identity's lines, word for word with their CRCs and without line ends: the ID line, its stops, both scales.
    /// </summary>
    public required ValueList<string> RawLines { get; init; }
}

/// <summary>One event of an instrument, word for word.</summary>
public sealed record InstrumentReported : JournalEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The boot that the event belongs to.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The event's number within its boot, from 1.</summary>
    public required long Sequence { get; init; }

    /// <summary>The line as it came, with its CRC and without the line end.</summary>
    public required string RawLine { get; init; }

    /// <summary>When it happened, estimated from the tick when the entry was written, and never estimated again.</summary>
    public required UtcTime HappenedAt { get; init; }

    /// <summary>How far that estimate may be off in either direction, in milliseconds, 0 or more.</summary>
    public required long UncertaintyMilliseconds { get; init; }

    /// <summary>When the line arrived.</summary>
    public required UtcTime ArrivedAt { get; init; }
}

/// <summary>Why events are lost for good.</summary>
public enum LossCause
{
    /// <summary>The instrument's memory overflowed, and it said so.</summary>
    MemoryOverflow = 1,

    /// <summary>The instrument no longer keeps what was never received.</summary>
    NoLongerKept = 2,

    /// <summary>The boot ended (switched off, or started anew) before everything was received.</summary>
    BootEnded = 3,

    /// <summary>Another host had acknowledged them.</summary>
    TakenByAnotherHost = 4,

    /// <summary>This installation had acknowledged them, and its journal does not hold them: it was restored from an older backup, or lost its end.</summary>
    MissingFromJournal = 5,
}

/// <summary>Events that will never come: a gap.</summary>
public sealed record EventsLost : SystemEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The boot in which they happened.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The number of the first one lost.</summary>
    public required long First { get; init; }

    /// <summary>The number of the last one lost; null if nobody knows how many there were.</summary>
    public required long? Last { get; init; }

    /// <summary>Why they are lost.</summary>
    public required LossCause Cause { get; init; }
}

/// <summary>An event came a second time with the same number and other content; the first one stands.</summary>
public sealed record EventsConflict : SystemEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The boot of both.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The number of both.</summary>
    public required long Sequence { get; init; }

    /// <summary>The second one's line, word for word.</summary>
    public required string RawLine { get; init; }
}

/// <summary>What became of the line to an instrument.</summary>
public enum LineState
{
    /// <summary>The instrument answers.</summary>
    Connected = 1,

    /// <summary>The port is gone.</summary>
    Lost = 2,

    /// <summary>The port is there, and nothing comes.</summary>
    Stalled = 3,
}

/// <summary>The line to an instrument was made, lost, or went quiet.</summary>
public sealed record LineChanged : SystemEntry
{
    /// <summary>The instrument; null if none was met on this port yet.</summary>
    public required SerialNumber? Serial { get; init; }

    /// <summary>The port, by the name that the operating system gives.</summary>
    public required string PortName { get; init; }

    /// <summary>What became of the line.</summary>
    public required LineState State { get; init; }

    /// <summary>Why, for a person to read; may be empty.</summary>
    public required string Reason { get; init; }
}

/// <summary>A command was asked for, before it was sent.</summary>
public sealed record CommandWished : SystemEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The command's number, which its reply echoes.</summary>
    public required long Number { get; init; }

    /// <summary>The command as on the wire, after its number and without the CRC, such as <c>OFF</c>.</summary>
    public required string Command { get; init; }

    /// <summary>Who asked for it; null if the service did.</summary>
    public required PersonId? Who { get; init; }
}

/// <summary>How a command ended.</summary>
public enum CommandOutcome
{
    /// <summary>The instrument did it.</summary>
    Done = 1,

    /// <summary>The instrument refused.</summary>
    Refused = 2,

    /// <summary>The instrument does not know the command.</summary>
    Unknown = 3,

    /// <summary>The instrument was busy.</summary>
    Busy = 4,

    /// <summary>No reply came in three tries; whether it was done is not known.</summary>
    NoReply = 5,
}

/// <summary>A command ended.</summary>
public sealed record CommandEnded : SystemEntry
{
    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The command's number.</summary>
    public required long Number { get; init; }

    /// <summary>How it ended.</summary>
    public required CommandOutcome Outcome { get; init; }

    /// <summary>The instrument's reason; may be empty.</summary>
    public required string Reason { get; init; }
}
