namespace PupilBridge.Exams.Entries.Sealing;

/// <summary>Which keys an entry is to be sealed under.</summary>
/// <param name="Patients">The patients that it names, each once.</param>
/// <param name="HasText">Whether it holds a text with a key of its own.</param>
public sealed record SealingNeeds(IReadOnlyList<PatientId> Patients, bool HasText)
{
    /// <summary>What an entry needs.</summary>
    /// <param name="entry">The entry.</param>
    public static SealingNeeds Of(JournalEntry entry)
    {
        var of = SealedFields.Of(entry).Select(field => field.Patients(entry)).ToList();
        return new([.. of.SelectMany(patients => patients).Distinct()], of.Exists(patients => patients.Count == 0));
    }

    /// <summary>Whether nothing of it is sealed.</summary>
    public bool IsNone => Patients.Count == 0 && !HasText;
}
