using System.Collections.Immutable;

namespace PupilBridge.Instrument.Links;

/// <summary>Where the host's side of a link stands.</summary>
public enum HostLinkPhase
{
    /// <summary>The port is not open.</summary>
    Closed = 0,

    /// <summary>Greeted; the identity is not complete yet.</summary>
    Greeting = 1,

    /// <summary>The instrument is known; the journal is asked how far it has this boot.</summary>
    Placing = 2,

    /// <summary>Events flow.</summary>
    Connected = 3,

    /// <summary>Another host holds the instrument.</summary>
    Held = 4,

    /// <summary>There is no common protocol version.</summary>
    NoVersion = 5,

    /// <summary>The line is dead, or another instrument answers on it: the port must be closed.</summary>
    Ended = 6,
}

/// <summary>Everything that the host's side of one link remembers. It outlives closing and opening of the port.</summary>
public sealed record HostLinkState
{
    /// <summary>A link that has not seen anything yet.</summary>
    /// <param name="host">This host.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentException">The host has no number.</exception>
    public static HostLinkState New(HostId host) =>
        host.IsKnown
            ? new HostLinkState { Host = host }
            : throw new ArgumentException("A host needs a number other than zero.", nameof(host));

    /// <summary>This host.</summary>
    public required HostId Host { get; init; }

    /// <summary>Where the link stands.</summary>
    public HostLinkPhase Phase { get; init; }

    /// <summary>The instrument as it presented itself last on the open port; null before.</summary>
    public InstrumentIdentity? Identity { get; init; }

    /// <summary>How far events were taken, of which boot; null before the first meeting.</summary>
    public BootProgress? Progress { get; init; }

    /// <summary>What was counted since the link was made.</summary>
    public HostLinkCounters Counters { get; init; } = new();

    /// <summary>When something must be done at the latest if nothing happens before; null if nothing waits.</summary>
    public TimeSpan? NextDue => HostLink.NextDue(this);

    internal TimeSpan Now { get; init; }

    internal TimeSpan LastGoodLineAt { get; init; }

    internal bool EverGood { get; init; }

    internal long FaultySinceGood { get; init; }

    internal TimeSpan GreetedAt { get; init; }

    internal bool Taking { get; init; }

    internal IdentityDraft? Draft { get; init; }

    internal TimeSpan LastEventAt { get; init; }

    internal TimeSpan? LastAckAt { get; init; }

    internal TimeSpan? LastResendAt { get; init; }

    internal bool ResendWanted { get; init; }

    /// <summary>The last number of a loss that was doubted and could be true if a second line tells of it.</summary>
    internal long? Doubted { get; init; }

    internal SentCommand? Sent { get; init; }

    internal ImmutableQueue<HostLinkInput.Wish> Wishes { get; init; } = [];

    internal ImmutableHashSet<BootNumber> EndedBoots { get; init; } = [];
}

/// <summary>How far the events of one boot were taken.</summary>
public sealed record BootProgress
{
    /// <summary>The instrument.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The boot.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>The last number handed over to be written, gaps included.</summary>
    public long Accepted { get; init; }

    /// <summary>The last number that is on disk; never more than <see cref="Accepted"/>.</summary>
    public long Durable { get; init; }

    /// <summary>Whether the last one handed over says that the instrument switched off.</summary>
    public bool SwitchedOff => OffAt == Accepted && OffAt > 0;

    /// <summary>The number of the event that says that the instrument switched off; 0 if there is none.</summary>
    internal long OffAt { get; init; }

    /// <summary>The number that must come next.</summary>
    public long Expected => Accepted + 1;

    /// <summary>The CRC of the last accepted lines by number; null for a number that stands as lost.</summary>
    internal Fingerprints Fingerprints { get; init; } = Fingerprints.None;

    internal ImmutableHashSet<(long Sequence, uint Crc)> Conflicts { get; init; } = [];
}

/// <summary>What the host's side of a link counts. All start at zero.</summary>
public sealed record HostLinkCounters
{
    /// <summary>Lines whose CRC was wrong or missing.</summary>
    public long BadCheck { get; init; }

    /// <summary>Runs of more than 120 bytes without a line end.</summary>
    public long TooLong { get; init; }

    /// <summary>Lines with a right CRC that could not be read: a fault of the firmware.</summary>
    public long Unreadable { get; init; }

    /// <summary>Lines of a type that this version does not know.</summary>
    public long UnknownTypes { get; init; }

    /// <summary>Events of a kind, or with a field, that this version does not know.</summary>
    public long UnknownEvents { get; init; }

    /// <summary>Events that came again and were dropped.</summary>
    public long Duplicates { get; init; }

    /// <summary>Events that came before their turn and were dropped, to be sent again.</summary>
    public long BeforeTheirTurn { get; init; }

    /// <summary>Numbers that came again with another content.</summary>
    public long Conflicts { get; init; }

    /// <summary>Lines that told of a loss that cannot be, or of a large one for the first time.</summary>
    public long Doubted { get; init; }

    /// <summary>Requests to send again.</summary>
    public long ResendsAsked { get; init; }
}

/// <summary>A command on its way.</summary>
internal sealed record SentCommand(uint Number, InstrumentCommand Command, int Tries, TimeSpan LastTryAt, bool Busy);

/// <summary>An identity of which not all lines have come yet.</summary>
internal sealed record IdentityDraft(
    IdentityHead Head,
    ImmutableArray<DialStop> Stops,
    ScaleDescription? Right,
    ImmutableArray<ReadOnlyMemory<byte>> RawLines
);

/// <summary>The outcome of one step.</summary>
/// <param name="State">The state after it.</param>
/// <param name="Outputs">What to do, in this order.</param>
public readonly record struct HostLinkStep(HostLinkState State, ImmutableArray<HostLinkOutput> Outputs);
