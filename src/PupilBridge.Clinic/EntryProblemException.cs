namespace PupilBridge.Clinic;

/// <summary>What a person gave cannot be understood or done. The message is for that person: what is wrong, what to give instead.</summary>
public sealed class EntryProblemException : Exception
{
    /// <summary>Says what is wrong.</summary>
    /// <param name="message">A sentence for a person.</param>
    public EntryProblemException(string message)
        : base(message) { }

    /// <summary>Says what is wrong, and what was found underneath.</summary>
    /// <param name="message">A sentence for a person.</param>
    /// <param name="innerException">What was found.</param>
    public EntryProblemException(string message, Exception innerException)
        : base(message, innerException) { }
}
