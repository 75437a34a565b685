namespace PupilBridge.Journal;

/// <summary>The journal cannot be used as it is; the message says what happened, where, and what to do next.</summary>
public class JournalException : Exception
{
    /// <inheritdoc/>
    public JournalException() { }

    /// <inheritdoc/>
    public JournalException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public JournalException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>Another process holds the data folder.</summary>
public sealed class JournalLockedException : JournalException
{
    /// <inheritdoc/>
    public JournalLockedException() { }

    /// <inheritdoc/>
    public JournalLockedException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public JournalLockedException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>The data folder that is held.</summary>
    public string Folder { get; init; } = "";

    /// <summary>The process id of the holder, null when it cannot be told.</summary>
    public int? HolderProcessId { get; init; }
}

/// <summary>A segment has a format, or a protection, that this program does not know.</summary>
public sealed class JournalFormatException : JournalException
{
    /// <inheritdoc/>
    public JournalFormatException() { }

    /// <inheritdoc/>
    public JournalFormatException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public JournalFormatException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>An encrypted segment cannot be read or made with the keys at hand; the message names the file and the key.</summary>
public sealed class JournalKeyException : JournalException
{
    /// <inheritdoc/>
    public JournalKeyException() { }

    /// <inheritdoc/>
    public JournalKeyException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public JournalKeyException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>The journal stopped before an entry was durable: it was not recorded, and must be given again.</summary>
public sealed class JournalStoppedException : JournalException
{
    /// <inheritdoc/>
    public JournalStoppedException() { }

    /// <inheritdoc/>
    public JournalStoppedException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public JournalStoppedException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>A segment's bytes do not hold what they must; the message continues "the segment is broken:".</summary>
public sealed class SegmentBrokenException : JournalException
{
    /// <inheritdoc/>
    public SegmentBrokenException() { }

    /// <inheritdoc/>
    public SegmentBrokenException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public SegmentBrokenException(string message, Exception innerException)
        : base(message, innerException) { }
}
