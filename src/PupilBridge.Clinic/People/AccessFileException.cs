namespace PupilBridge.Clinic.People;

/// <summary>The access file cannot be used. The message says which file, what is wrong, and what to do.</summary>
public sealed class AccessFileException : Exception
{
    /// <summary>Says what is wrong.</summary>
    /// <param name="message">Sentences for a person.</param>
    /// <param name="innerException">What was found underneath.</param>
    public AccessFileException(string message, Exception? innerException = null)
        : base(message, innerException) { }
}
