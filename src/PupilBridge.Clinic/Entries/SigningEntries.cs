namespace PupilBridge.Clinic.Entries;

/// <summary>Signs an exam's record, or the amended record of a signed one.</summary>
public sealed record SignEntry : ExamDeskEntry
{
    /// <summary>
    /// The digest of the record that the person saw, as <see cref="Views.RecordView.DraftDigest"/> told it. It is refused if the record
    /// has changed since.
    /// </summary>
    public required string SeenDigest { get; init; }
}

/// <summary>Begins to amend a signed exam: corrections can be entered again until it is signed anew.</summary>
public sealed record AmendEntry : ExamDeskEntry
{
    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}

/// <summary>Gives the list of one day's patients; a later one for the same day replaces it.</summary>
public sealed record DayListEntry : DeskEntry
{
    /// <summary>The day.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The patients in their order.</summary>
    public required IReadOnlyList<DayListLine> Lines { get; init; }

    /// <summary>The name of the file that it came from.</summary>
    public required string Source { get; init; }
}

/// <summary>One patient on a day's list.</summary>
/// <param name="Patient">The patient's number.</param>
/// <param name="Time">When they are expected, <c>HH:mm</c>; null if it was not said.</param>
public sealed record DayListLine(string Patient, string? Time);
