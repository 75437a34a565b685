namespace PupilBridge.Exchange.Fhir;

/// <summary>A record was not made into a message for another system; the message says why and what to do.</summary>
public sealed class RecordNotSentException : Exception
{
    /// <summary>A record that must not leave.</summary>
    /// <param name="message">Why, and what to do.</param>
    public RecordNotSentException(string message)
        : base(message) { }
}
