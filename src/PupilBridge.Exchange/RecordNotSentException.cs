namespace PupilBridge.Exchange;

/// <summary>A record does not go to another system as it is; the message says why and what to do.</summary>
public sealed class RecordNotSentException : Exception
{
    /// <summary>A record that must not leave, or that the other system does not take.</summary>
    /// <param name="message">Why, and what to do.</param>
    /// <param name="inner">What went wrong; null where nothing did.</param>
    public RecordNotSentException(string message, Exception? inner = null)
        : base(message, inner) { }
}
