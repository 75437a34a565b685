using System.Collections.Immutable;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <summary>What an instrument is built to do on its line; it never changes while it is on.</summary>
public sealed record InstrumentLinkSetup
{
    /// <summary>Who it is. Version, boot and what was acknowledged are filled in by the link.</summary>
    public required InstrumentIdentity Identity { get; init; }

    /// <summary>How many events its memory holds, a gap counted as one; at least 2.</summary>
    /// <value>The default is 512, the least that the protocol allows; smaller ones are for tests.</value>
    public int KeptCapacity { get; init; } = LinkTiming.LeastKept;

    /// <summary>How many bytes the line takes in a second; null where it takes any number at once.</summary>
    /// <value>The default is 11,520: 115,200 baud with ten bits to a byte.</value>
    public int? BytesPerSecond { get; init; } = 11_520;

    /// <summary>The lowest protocol version that it speaks.</summary>
    public int LowestVersion { get; init; } = WireLimits.LowestVersion;

    /// <summary>The highest protocol version that it speaks.</summary>
    public int HighestVersion { get; init; } = WireLimits.HighestVersion;
}

/// <summary>Where the instrument's side of a link stands.</summary>
public enum InstrumentLinkPhase
{
    /// <summary>Switched off.</summary>
    Off = 0,

    /// <summary>On, the line is down.</summary>
    Unplugged = 1,

    /// <summary>On, and no host is listening: only heartbeats are sent.</summary>
    Alone = 2,

    /// <summary>A host listens; everything kept was sent, and nothing is unacknowledged.</summary>
    Idle = 3,

    /// <summary>A host listens; events are still to be sent.</summary>
    Sending = 4,

    /// <summary>A host listens; everything was sent, and an acknowledgement is awaited.</summary>
    Waiting = 5,
}

/// <summary>Everything that the instrument's side of a link remembers.</summary>
public sealed record InstrumentLinkState
{
    /// <summary>An instrument that is switched off.</summary>
    /// <param name="setup">What it is built to do.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentException">Its memory is too small to hold a gap and an event.</exception>
    public static InstrumentLinkState New(InstrumentLinkSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        if (setup.KeptCapacity < 2)
            throw new ArgumentException("The memory must hold at least two events, a gap and one more.", nameof(setup));
        return new InstrumentLinkState { Setup = setup, ProtocolVersion = setup.HighestVersion };
    }

    /// <summary>What it is built to do.</summary>
    public required InstrumentLinkSetup Setup { get; init; }

    /// <summary>Whether it is switched on.</summary>
    public bool IsOn { get; init; }

    /// <summary>The present boot.</summary>
    public BootNumber Boot { get; init; }

    /// <summary>The highest event number given in this boot.</summary>
    public long Last { get; init; }

    /// <summary>The highest number acknowledged in this boot.</summary>
    public long Acknowledged { get; init; }

    /// <summary>The host that acknowledged it.</summary>
    public HostId AcknowledgedBy { get; init; }

    /// <summary>The host that holds the instrument; the default if none greeted it in this boot.</summary>
    public HostId Holder { get; init; }

    /// <summary>How many events, a gap counted as one, are kept unacknowledged.</summary>
    public int KeptCount => Kept.Count;

    /// <summary>Whether the last event says that it switches off.</summary>
    public bool SwitchingOff { get; init; }

    /// <summary>Where the link stands.</summary>
    public InstrumentLinkPhase Phase =>
        !IsOn ? InstrumentLinkPhase.Off
        : !LinkUp ? InstrumentLinkPhase.Unplugged
        : !Listening ? InstrumentLinkPhase.Alone
        : Cursor <= Last ? InstrumentLinkPhase.Sending
        : Kept.IsEmpty ? InstrumentLinkPhase.Idle
        : InstrumentLinkPhase.Waiting;

    /// <summary>When something must be done at the latest if nothing happens before; null while switched off.</summary>
    public TimeSpan? NextDue => InstrumentLink.NextDue(this);

    /// <summary>The lowest number it still answers for; <c>Last + 1</c> if none.</summary>
    public long OldestKept => Kept.IsEmpty ? Last + 1 : Kept[0].First;

    internal TimeSpan At { get; init; }

    internal Tick Now { get; init; }

    internal bool LinkUp { get; init; } = true;

    internal bool Listening { get; init; }

    internal TimeSpan LastHeardAt { get; init; }

    internal int ProtocolVersion { get; init; }

    internal ImmutableList<KeptEvent> Kept { get; init; } = [];

    /// <summary>The number of the next event to send.</summary>
    internal long Cursor { get; init; } = 1;

    internal TimeSpan LineBusyUntil { get; init; }

    internal TimeSpan LastProgressAt { get; init; }

    internal TimeSpan NextBeatAt { get; init; }

    internal TimeSpan? RefusedAt { get; init; }

    internal PerEye<TimeSpan?> LastMovedAt { get; init; } = new() { Right = null, Left = null };

    internal byte? BatteryPercent { get; init; }

    internal ImmutableList<RememberedReply> Replies { get; init; } = [];
}

/// <summary>An event in memory: its line as it is sent each time. A gap covers all numbers from its first one.</summary>
internal sealed record KeptEvent(long First, long Sequence, Tick Tick, ReadOnlyMemory<byte> Bytes);

/// <summary>A command that was asked for, and its reply once there is one.</summary>
internal sealed record RememberedReply(HostId Host, uint Number, CommandReply? Reply);

/// <summary>The outcome of one step.</summary>
/// <param name="State">The state after it.</param>
/// <param name="Outputs">What to do, in this order.</param>
public readonly record struct InstrumentLinkStep(
    InstrumentLinkState State,
    ImmutableArray<InstrumentLinkOutput> Outputs
);
