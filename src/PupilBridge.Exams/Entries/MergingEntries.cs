namespace PupilBridge.Exams.Entries;

/// <summary>
/// Two numbers turned out to be one person. No exam moves and no record changes: each exam keeps the number it was attached to, and what
/// is read of a patient follows the merging for as long as it stands.
/// </summary>
public sealed record PatientsMerged : PersonEntry
{
    /// <summary>The number that goes on.</summary>
    public required PatientId Kept { get; init; }

    /// <summary>The number that stands for the same person and is not to be used any more.</summary>
    public required PatientId Merged { get; init; }

    /// <summary>Whether the two are known with different dates of birth, and the person who merged them was told so and said it again.</summary>
    public required bool IsDespiteBirthDates { get; init; }

    /// <summary>Why: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}

/// <summary>A merging was a mistake: both numbers stand for a person of their own again, as if it had never been.</summary>
public sealed record PatientsParted : PersonEntry
{
    /// <summary>The <see cref="PatientsMerged"/> entry that is taken back.</summary>
    public required EntryId Merging { get; init; }

    /// <summary>The number that went on; null where it was not said, as by earlier versions of the program.</summary>
    public PatientId? Kept { get; init; }

    /// <summary>The number that was merged into it; null where it was not said.</summary>
    public PatientId? Merged { get; init; }

    /// <summary>Why: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}
