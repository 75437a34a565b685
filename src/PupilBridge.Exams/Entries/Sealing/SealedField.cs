using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>One thing in an entry that is sealed: a patient's number, or a text.</summary>
/// <param name="Number">Its number within the kind of entry, from 1; never reused.</param>
internal abstract record SealedField(int Number)
{
    /// <summary>The patients under whose keys it lies; none for a text that has a key of its own.</summary>
    public abstract IReadOnlyList<PatientId> Patients(JournalEntry entry);

    /// <summary>Writes it as it is sealed.</summary>
    public abstract void Write(EntryWriter writer, JournalEntry entry);

    /// <summary>The entry without it: its key was destroyed, or cannot be read.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="standIn">What stands in the place of a number.</param>
    public abstract JournalEntry Without(JournalEntry entry, PatientId standIn);

    /// <summary>The entry with it.</summary>
    public abstract JournalEntry With(JournalEntry entry, ref EntryReader reader);
}

/// <summary>A patient's number, under that patient's key.</summary>
internal sealed record NumberField<T>(int Number, Func<T, PatientId> Get, Func<T, PatientId, T> Set)
    : SealedField(Number)
    where T : JournalEntry
{
    public override IReadOnlyList<PatientId> Patients(JournalEntry entry) => [Get((T)entry)];

    public override void Write(EntryWriter writer, JournalEntry entry) => writer.Text(Get((T)entry).Value);

    public override JournalEntry Without(JournalEntry entry, PatientId standIn) => Set((T)entry, standIn);

    public override JournalEntry With(JournalEntry entry, ref EntryReader reader) =>
        Set((T)entry, new PatientId(reader.Text()));
}

internal delegate T WithSecret<T>(T entry, ref EntryReader reader);

/// <summary>Who a patient is, or a text.</summary>
/// <remarks><c>Of</c> names the patients under whose keys it lies; none for a key of its own.</remarks>
internal sealed record SecretField<T>(
    int Number,
    Func<T, IReadOnlyList<PatientId>> Of,
    Action<EntryWriter, T> WriteSecret,
    Func<T, T> Clear,
    WithSecret<T> Restore
) : SealedField(Number)
    where T : JournalEntry
{
    public override IReadOnlyList<PatientId> Patients(JournalEntry entry) => Of((T)entry);

    public override void Write(EntryWriter writer, JournalEntry entry) => WriteSecret(writer, (T)entry);

    public override JournalEntry Without(JournalEntry entry, PatientId standIn) => Clear((T)entry);

    public override JournalEntry With(JournalEntry entry, ref EntryReader reader) => Restore((T)entry, ref reader);
}
