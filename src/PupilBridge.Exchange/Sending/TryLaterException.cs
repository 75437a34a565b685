namespace PupilBridge.Exchange.Sending;

/// <summary>A try came to nothing that is final; it is made again.</summary>
internal sealed class TryLaterException : Exception
{
    public TryLaterException(string message, bool isServer, TimeSpan? retryAfter = null, Exception? inner = null)
        : base(message, inner) => (IsServer, RetryAfter) = (isServer, retryAfter);

    /// <summary>Whether the server as a whole cannot, and not only this record.</summary>
    public bool IsServer { get; }

    /// <summary>When the server wants to be asked again; null if it did not say.</summary>
    public TimeSpan? RetryAfter { get; }
}
