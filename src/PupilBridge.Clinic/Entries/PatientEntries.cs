namespace PupilBridge.Clinic.Entries;

/// <summary>Adds a patient, or corrects what is known of one.</summary>
public sealed record PatientEntry : DeskEntry
{
    /// <summary>The clinic's number for the patient, 1 to 64 characters.</summary>
    public required string Patient { get; init; }

    /// <summary>The name, if the clinic wants one.</summary>
    public string? Name { get; init; }

    /// <summary>The date of birth, if known.</summary>
    public DateOnly? BirthDate { get; init; }

    /// <summary>
    /// Whether it corrects what is known, and stands exactly as given. Otherwise a number that is known under another name or birth
    /// date is refused, and what is left empty stays as known.
    /// </summary>
    public bool IsCorrection { get; init; }
}

/// <summary>Opens an exam. Its number is the journal sequence that the outcome tells.</summary>
public sealed record OpenExamEntry : DeskEntry
{
    /// <summary>The serial number of the instrument.</summary>
    public required string Instrument { get; init; }

    /// <summary>Whose exam it is; null to attach it later.</summary>
    public string? Patient { get; init; }
}

/// <summary>Gives an exam that has no patient its patient.</summary>
public sealed record AttachEntry : ExamDeskEntry
{
    /// <summary>Whose exam it is.</summary>
    public required string Patient { get; init; }

    /// <summary>Why, if there is something to say.</summary>
    public string? Reason { get; init; }
}

/// <summary>Gives an exam to another patient than it was attached to.</summary>
public sealed record MoveEntry : ExamDeskEntry
{
    /// <summary>Whose exam it is from now on.</summary>
    public required string Patient { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}

/// <summary>Makes a new exam of what an exam holds from one entry of the journal on.</summary>
public sealed record SplitEntry : ExamDeskEntry
{
    /// <summary>The journal sequence of the first entry that belongs to the new exam.</summary>
    public required long From { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}
