namespace PupilBridge.Exams.Entries.Codec;

/// <summary>The parts of one encoded entry while it is read.</summary>
internal ref struct EntryParts
{
    /// <summary>The version that wrote it, 1 up to the format's own.</summary>
    public int Version;

    /// <summary>The part that is always readable.</summary>
    public EntryReader Open;

    /// <summary>The protected part, empty if there is none or it was erased.</summary>
    public EntryReader Protected;

    /// <summary>Whether the protected part was erased.</summary>
    public bool Erased;
}

/// <summary>Reads an entry of one kind, of the format's version or of an earlier one (this is where old bytes are lifted).</summary>
internal delegate T ReadEntry<out T>(ref EntryParts parts)
    where T : JournalEntry;

/// <summary>How one kind of entry is written and read.</summary>
internal abstract record EntryFormat(EntryKind Kind, int Version, Type EntryType)
{
    public abstract void WriteOpen(EntryWriter writer, JournalEntry entry);

    public abstract ProtectionForm WriteProtected(EntryWriter writer, JournalEntry entry);

    public abstract JournalEntry Read(ref EntryParts parts);
}

/// <summary>How one kind of entry without a protected part is written and read.</summary>
internal sealed record OpenFormat<T>(EntryKind Kind, int Version, Action<EntryWriter, T> Write, ReadEntry<T> ReadParts)
    : EntryFormat(Kind, Version, typeof(T))
    where T : JournalEntry
{
    public override void WriteOpen(EntryWriter writer, JournalEntry entry) => Write(writer, (T)entry);

    public override ProtectionForm WriteProtected(EntryWriter writer, JournalEntry entry) => ProtectionForm.None;

    public override JournalEntry Read(ref EntryParts parts) => ReadParts(ref parts);
}

/// <summary>How one kind of entry with a protected part is written and read.</summary>
/// <remarks><c>IsErased</c> tells whether the entry's protected part is gone; <c>WriteSecret</c> writes it where it is not.</remarks>
internal sealed record ProtectedFormat<T>(
    EntryKind Kind,
    int Version,
    Action<EntryWriter, T> Write,
    Func<T, bool> IsErased,
    Action<EntryWriter, T> WriteSecret,
    ReadEntry<T> ReadParts
) : EntryFormat(Kind, Version, typeof(T))
    where T : JournalEntry
{
    public override void WriteOpen(EntryWriter writer, JournalEntry entry) => Write(writer, (T)entry);

    public override ProtectionForm WriteProtected(EntryWriter writer, JournalEntry entry)
    {
        if (IsErased((T)entry))
            return ProtectionForm.Erased;
        WriteSecret(writer, (T)entry);
        return ProtectionForm.Plain;
    }

    public override JournalEntry Read(ref EntryParts parts) => ReadParts(ref parts);
}

/// <summary>How the protected part of an entry is kept.</summary>
internal enum ProtectionForm
{
    /// <summary>The kind has no protected part.</summary>
    None = 0,

    /// <summary>As it was written.</summary>
    Plain = 1,

    /// <summary>It was erased; the open part stands.</summary>
    Erased = 2,

    /// <summary>
    /// Sealed under keys that lie outside the journal; then a kind without a protected part of its own may have one, for the patients'
    /// numbers in it.
    /// </summary>
    Sealed = 3,
}
