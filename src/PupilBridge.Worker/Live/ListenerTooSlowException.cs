namespace PupilBridge.Worker.Live;

/// <summary>A listener fell behind and was dropped. It starts over from a new snapshot by listening again.</summary>
public sealed class ListenerTooSlowException : Exception
{
    /// <summary>Says how far it fell behind.</summary>
    /// <param name="backlog">The number of changes that may wait for a listener.</param>
    public ListenerTooSlowException(int backlog)
        : base($"This view fell more than {backlog} changes behind and was dropped; ask for the present state again.")
    { }
}
