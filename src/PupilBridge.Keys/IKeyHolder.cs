namespace PupilBridge.Keys;

/// <summary>Something that keeps keys wrapped under master keys: the journal, the exam log, the keys of subjects.</summary>
public interface IKeyHolder
{
    /// <summary>What it is, for a person.</summary>
    string Name { get; }

    /// <summary>How many keys it has wrapped under which master key.</summary>
    /// <exception cref="IOException">A file cannot be read.</exception>
    IReadOnlyDictionary<MasterKeyId, int> Uses();

    /// <summary>
    /// Wraps every key under the current master key that is not. When it returns that is durable; whenever it is cut off, each key
    /// can be opened with the ring that was given, and this can be called again.
    /// </summary>
    /// <returns>How many were wrapped anew.</returns>
    int WrapAnew(KeyRing keys);
}
