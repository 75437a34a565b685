namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>A key with its place.</summary>
/// <param name="Slot">Where it lies.</param>
/// <param name="Bytes">Its <see cref="ISubjectKeys.KeyBytes"/> bytes.</param>
public sealed record SubjectKey(KeySlot Slot, ReadOnlyMemory<byte> Bytes);

/// <summary>The keys for one entry. They are on disk before the entry is given to the journal, so that none is ever sealed for good.</summary>
/// <param name="Patients">The keys of the patients that the entry names.</param>
/// <param name="Text">The key of its text; null if it has none.</param>
/// <param name="Nonce">
/// Twelve random bytes, drawn for this entry alone. Each piece's nonce is made of them and of the piece's number, so that none is used
/// twice under one key.
/// </param>
public sealed record PreparedKeys(
    IReadOnlyDictionary<PatientId, SubjectKey> Patients,
    SubjectKey? Text,
    ReadOnlyMemory<byte> Nonce
);
