namespace PupilBridge.Clinic.Outbox;

/// <summary>How the sending goes just now: written by whoever sends, read by whoever looks. Safe for several threads.</summary>
public sealed class SendingNews
{
    private volatile SendingState? state;

    /// <summary>How it goes; null where no destination is set.</summary>
    public SendingState? State => state;

    /// <summary>Tells how it goes.</summary>
    /// <param name="now">The state.</param>
    public void Tell(SendingState? now) => state = now;
}
