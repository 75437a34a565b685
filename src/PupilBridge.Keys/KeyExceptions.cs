namespace PupilBridge.Keys;

/// <summary>A key cannot be used; the message says which, where, and what to do next.</summary>
public class KeyException : Exception
{
    /// <inheritdoc/>
    public KeyException() { }

    /// <inheritdoc/>
    public KeyException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public KeyException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>The master key that is named is not at hand.</summary>
public sealed class MasterKeyMissingException : KeyException
{
    /// <inheritdoc/>
    public MasterKeyMissingException() { }

    /// <inheritdoc/>
    public MasterKeyMissingException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public MasterKeyMissingException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>The key that is wanted.</summary>
    public MasterKeyId Id { get; init; }
}
