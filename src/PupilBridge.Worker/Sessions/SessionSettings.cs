using PupilBridge.Instrument;

namespace PupilBridge.Worker.Sessions;

/// <summary>What a session must know.</summary>
/// <param name="Host">The number of this installation.</param>
/// <param name="Port">The port's name, for entries and messages.</param>
/// <param name="Baud">The line's speed, for messages.</param>
/// <param name="WaitingLimit">How many of this port's entries may wait for the disk before events are passed over.</param>
internal sealed record SessionSettings(HostId Host, string Port, int Baud, int WaitingLimit)
{
    /// <summary>
    /// How often a line that says nothing is greeted anew before the port is closed and opened again, in rounds of 3 s. An
    /// instrument that is switched on is so answered within a second, yet a port that only looks open is not kept for ever.
    /// </summary>
    public const int SilentRounds = 10;

    /// <summary>
    /// How long what is on disk may stay unacknowledged if the journal does not say that it has caught up, which it says at
    /// the end of each batch that ends with an entry of ours.
    /// </summary>
    public static readonly TimeSpan AcknowledgeWithin = TimeSpan.FromMilliseconds(100);

    /// <summary>How long the first heartbeat is waited for before events are taken without knowing when they happened.</summary>
    public static readonly TimeSpan FirstBeatWithin = TimeSpan.FromSeconds(5);
}
