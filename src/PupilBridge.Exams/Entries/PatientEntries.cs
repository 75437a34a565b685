namespace PupilBridge.Exams.Entries;

/// <summary>
/// A patient was added, or what is known of one was corrected: the latest entry of a number holds.
/// </summary>
public sealed record PatientEntered : PersonEntry
{
    /// <summary>The clinic's number for the patient.</summary>
    public required PatientId Patient { get; init; }

    /// <summary>Who that is: the protected part. Null once it has been erased.</summary>
    public required PatientDetails? Details { get; init; }
}

/// <summary>What identifies a person; kept apart from the readings so that it can be erased alone.</summary>
public sealed record PatientDetails
{
    /// <summary>The name, if the clinic wants one; empty if not.</summary>
    public required string Name { get; init; }

    /// <summary>The date of birth, if known.</summary>
    public required DateOnly? BirthDate { get; init; }
}
