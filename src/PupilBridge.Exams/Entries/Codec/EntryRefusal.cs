namespace PupilBridge.Exams.Entries.Codec;

/// <summary>Why bytes are not read as an entry.</summary>
public enum RefusalCause
{
    /// <summary>The bytes are not a whole, well-formed entry.</summary>
    Damaged = 1,

    /// <summary>The kind is one that this version does not know.</summary>
    UnknownKind = 2,

    /// <summary>The kind is known, its version is newer than this version reads.</summary>
    NewerVersion = 3,

    /// <summary>The protected part is kept in a form that this version does not know.</summary>
    UnknownProtection = 4,
}

/// <summary>Why bytes are not read as an entry, and what to do.</summary>
/// <param name="Cause">Why.</param>
/// <param name="Kind">The entry's kind number, as far as it could be read; 0 if not.</param>
/// <param name="Version">The entry's version, as far as it could be read; 0 if not.</param>
/// <param name="Message">What happened and what to do next, for a person.</param>
public sealed record EntryRefusal(RefusalCause Cause, int Kind, int Version, string Message);

/// <summary>Thrown where bytes of the journal cannot be read as an entry and the caller asked for one.</summary>
/// <param name="refusal">Why.</param>
public sealed class EntryRefusedException(EntryRefusal refusal)
    : Exception((refusal ?? throw new ArgumentNullException(nameof(refusal))).Message)
{
    /// <summary>Why, as a value.</summary>
    public EntryRefusal Refusal { get; } = refusal;
}
