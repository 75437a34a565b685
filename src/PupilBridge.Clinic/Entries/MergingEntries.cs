namespace PupilBridge.Clinic.Entries;

/// <summary>Says that two numbers are one person. Nothing recorded moves; what is shown of the person is gathered from both numbers.</summary>
public sealed record MergeEntry : DeskEntry
{
    /// <summary>The number that goes on.</summary>
    public required string Kept { get; init; }

    /// <summary>The number that is not to be used any more.</summary>
    public required string Merged { get; init; }

    /// <summary>
    /// Whether the two are to be merged though they are known with different dates of birth. It is refused otherwise, with both dates.
    /// </summary>
    public bool IsDespiteBirthDates { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}

/// <summary>Takes the merging of a number back: both numbers stand for a person of their own again.</summary>
public sealed record PartEntry : DeskEntry
{
    /// <summary>The number that was merged into another.</summary>
    public required string Merged { get; init; }

    /// <summary>The id of the merging that the person saw; null for the one that stands.</summary>
    public string? Merging { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}
