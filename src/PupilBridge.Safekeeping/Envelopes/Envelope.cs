namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>How the pieces of a backup are sealed. Reading and writing are streams, in constant memory.</summary>
public abstract class Envelope
{
    /// <summary>The way of sealing, as the catalogue names it; for a recipient, with the fingerprint of the key.</summary>
    public abstract string Name { get; }

    /// <summary>What a sealed file's name ends with; empty where nothing is sealed.</summary>
    public abstract string Suffix { get; }

    /// <summary>Whether what is sealed cannot be read by whoever finds it.</summary>
    public abstract bool IsEncrypted { get; }

    /// <summary>Whether it can be opened here: a public key alone only seals.</summary>
    public abstract bool CanOpen { get; }

    /// <summary>Begins to seal.</summary>
    /// <param name="to">Where the sealed bytes go; it is left open.</param>
    /// <returns>Where to write; closing it completes the seal.</returns>
    public abstract Stream Seal(Stream to);

    /// <summary>
    /// Opens what is sealed. Its content counts only once the stream was read to its end: there the seal is proved.
    /// </summary>
    /// <param name="from">The sealed bytes; they are left open.</param>
    /// <exception cref="WrongKeyException">It was sealed for another pass phrase or key, here or while reading.</exception>
    /// <exception cref="BrokenSealException">It was altered or cut, here or while reading.</exception>
    public abstract Stream Open(Stream from);
}

/// <summary>The pass phrase or key does not fit.</summary>
public sealed class WrongKeyException : IOException
{
    /// <inheritdoc/>
    public WrongKeyException() { }

    /// <inheritdoc/>
    public WrongKeyException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public WrongKeyException(string message, Exception innerException)
        : base(message, innerException) { }
}

/// <summary>What was sealed has been altered or cut, or is no sealed file at all.</summary>
public sealed class BrokenSealException : IOException
{
    /// <inheritdoc/>
    public BrokenSealException() { }

    /// <inheritdoc/>
    public BrokenSealException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public BrokenSealException(string message, Exception innerException)
        : base(message, innerException) { }
}
