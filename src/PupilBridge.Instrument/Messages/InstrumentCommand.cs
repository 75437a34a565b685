namespace PupilBridge.Instrument;

/// <summary>What a host can ask an instrument to do.</summary>
public enum InstrumentCommandKind : byte
{
    /// <summary>A command that this version does not know; an instrument answers it with <c>UNKNOWN</c>.</summary>
    Unknown = 0,

    /// <summary>
    /// A known command whose fields cannot be read; an instrument that has the ability for it answers <c>REFUSED</c>, any other
    /// <c>UNKNOWN</c>.
    /// </summary>
    Unreadable = 1,

    /// <summary>Switch off.</summary>
    Off = 2,

    /// <summary>Use this stimulus train for a block; only while the dial is in idle.</summary>
    Train = 3,
}

/// <summary>One command: its kind and, for a train, its numbers.</summary>
/// <param name="Kind">What is asked.</param>
/// <param name="Block">Train: the block that is set; none otherwise.</param>
/// <param name="Stimuli">Train: the number of stimuli per eye, 1 to 99; 0 otherwise.</param>
/// <param name="DwellMilliseconds">Train: how long the lamp is on, 1 to 60,000 ms; 0 otherwise.</param>
/// <param name="GapMilliseconds">Train: how long it is off between two stimuli, 0 to 60,000 ms.</param>
public readonly record struct InstrumentCommand(
    InstrumentCommandKind Kind,
    Block Block,
    int Stimuli,
    int DwellMilliseconds,
    int GapMilliseconds
)
{
    /// <summary>The command to switch off.</summary>
    public static InstrumentCommand Off => new(InstrumentCommandKind.Off, Block.None, 0, 0, 0);

    /// <summary>The command to use a stimulus train for a block.</summary>
    /// <param name="block">The block; not none.</param>
    /// <param name="stimuli">1 to 99 per eye.</param>
    /// <param name="dwellMilliseconds">1 to 60,000 ms.</param>
    /// <param name="gapMilliseconds">0 to 60,000 ms.</param>
    /// <returns>The command.</returns>
    public static InstrumentCommand Train(Block block, int stimuli, int dwellMilliseconds, int gapMilliseconds) =>
        new(InstrumentCommandKind.Train, block, stimuli, dwellMilliseconds, gapMilliseconds);
}

/// <summary>How an instrument answers a command.</summary>
public enum CommandAnswer : byte
{
    /// <summary>Not said.</summary>
    None = 0,

    /// <summary>Done.</summary>
    Ok = 1,

    /// <summary>It can, but will not now, or not with these numbers.</summary>
    Refused = 2,

    /// <summary>It has no such command.</summary>
    Unknown = 3,

    /// <summary>It is busy with an earlier command; ask again.</summary>
    Busy = 4,
}

/// <summary>The reply to a command (<c>DONE</c>).</summary>
/// <param name="Host">The host that asked.</param>
/// <param name="Number">The number of its command, 1 to 2^32 − 1.</param>
/// <param name="Answer">How it went.</param>
/// <param name="Reason">Why, in the instrument's words; may be empty.</param>
public readonly record struct CommandReply(HostId Host, uint Number, CommandAnswer Answer, AsciiText Reason);
