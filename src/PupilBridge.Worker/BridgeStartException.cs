namespace PupilBridge.Worker;

/// <summary>The bridge cannot start. The message says what is in the way and what to do.</summary>
public sealed class BridgeStartException : Exception
{
    /// <summary>Says what is in the way.</summary>
    /// <param name="message">For a person.</param>
    /// <param name="innerException">What was found underneath.</param>
    public BridgeStartException(string message, Exception? innerException = null)
        : base(message, innerException) { }
}
