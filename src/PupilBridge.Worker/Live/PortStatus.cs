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

    /// <summary>The whole seconds until the port is tried again, rounded up; null if it is not waited for.</summary>
    /// <param name="now">The present time.</param>
    /// <returns>0 or more.</returns>
    public int? SecondsToNextTry(DateTimeOffset now) =>
        NextTryAt is { } at ? (int)Math.Ceiling(Math.Max(0, (at - now).TotalSeconds)) : null;
}
