using PupilBridge.Instrument;

namespace PupilBridge.Worker.Live;

/// <summary>One port as a person sees it.</summary>
public sealed record PortStatus
{
    /// <summary>The port's stable name.</summary>
    public required string Port { get; init; }

    /// <summary>What is the matter with it.</summary>
    public required PortPhase Phase { get; init; }

    /// <summary>The same for a person: what happened and what to do; may be empty where all is well.</summary>
    public required string Message { get; init; }

    /// <summary>When this phase began.</summary>
    public required DateTimeOffset Since { get; init; }

    /// <summary>When the port is tried again; null while it is open or being opened.</summary>
    public DateTimeOffset? NextTryAt { get; init; }

    /// <summary>The instrument that was met there last; null for none yet.</summary>
    public SerialNumber? Serial { get; init; }
}
