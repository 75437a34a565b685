using System.Collections.Immutable;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <summary>Something that happens to the host's side of a link.</summary>
/// <param name="At">When, by the host's monotonic clock.</param>
public abstract record HostLinkInput(TimeSpan At)
{
    /// <summary>The port is open.</summary>
    /// <param name="At">When.</param>
    public sealed record Opened(TimeSpan At) : HostLinkInput(At);

    /// <summary>The port is closed or lost.</summary>
    /// <param name="At">When.</param>
    /// <param name="Reason">Why, for a person.</param>
    public sealed record Closed(TimeSpan At, string Reason) : HostLinkInput(At);

    /// <summary>A well-formed line arrived.</summary>
    /// <param name="Line">The line.</param>
    /// <param name="Raw">Its bytes without CR and LF; they must stay as they are.</param>
    /// <param name="At">When its last byte arrived.</param>
    public sealed record LineArrived(InstrumentLine Line, ReadOnlyMemory<byte> Raw, TimeSpan At) : HostLinkInput(At);

    /// <summary>Something arrived that is no well-formed line.</summary>
    /// <param name="Fault">What is wrong with it.</param>
    /// <param name="At">When.</param>
    public sealed record LineFaulty(LineFault Fault, TimeSpan At) : HostLinkInput(At);

    /// <summary>The journal's answer to <see cref="HostLinkOutput.AskPosition"/>.</summary>
    /// <param name="Boot">The boot asked for.</param>
    /// <param name="LastDurable">The last number of that boot on disk, gaps included; 0 for none.</param>
    /// <param name="Ended">Whether the journal tells how that boot ended: by switching off, or by a gap without an end.</param>
    /// <param name="Fingerprints">The CRC of the line of each of the last events on disk, by number.</param>
    /// <param name="OpenBoots">Earlier boots of the same instrument whose end the journal does not tell yet.</param>
    /// <param name="At">When.</param>
    public sealed record PositionKnown(
        BootNumber Boot,
        long LastDurable,
        bool Ended,
        ImmutableDictionary<long, uint> Fingerprints,
        ImmutableArray<OpenBoot> OpenBoots,
        TimeSpan At
    ) : HostLinkInput(At);

    /// <summary>Everything handed over of a boot up to a number is on disk.</summary>
    /// <param name="Boot">The boot.</param>
    /// <param name="Sequence">The number.</param>
    /// <param name="At">When.</param>
    public sealed record MadeDurable(BootNumber Boot, long Sequence, TimeSpan At) : HostLinkInput(At);

    /// <summary>
    /// Writing failed: of what was handed over, nothing but what was declared durable is or ever will be on disk. The link
    /// asks for the position again, and the instrument for the events.
    /// </summary>
    /// <param name="At">When.</param>
    public sealed record WritingFailed(TimeSpan At) : HostLinkInput(At);

    /// <summary>Someone wishes a command to be sent.</summary>
    /// <param name="Number">
    /// A number, 1 to 2^32 − 1, that this host has not used with this instrument before: a number that an instrument knows
    /// already is answered, not carried out.
    /// </param>
    /// <param name="Command">What is asked.</param>
    /// <param name="At">When.</param>
    public sealed record Wish(uint Number, InstrumentCommand Command, TimeSpan At) : HostLinkInput(At);

    /// <summary>A person decided to take the instrument over from another host.</summary>
    /// <param name="At">When.</param>
    public sealed record TakeOverWished(TimeSpan At) : HostLinkInput(At);

    /// <summary>Time passed; to be given at <see cref="HostLinkState.NextDue"/> at the latest.</summary>
    /// <param name="At">When.</param>
    public sealed record TimePassed(TimeSpan At) : HostLinkInput(At);
}

/// <summary>A boot whose end the journal does not tell: neither switched off nor closed by a gap.</summary>
/// <param name="Boot">The boot.</param>
/// <param name="Last">The last number known of it.</param>
public readonly record struct OpenBoot(BootNumber Boot, long Last);
