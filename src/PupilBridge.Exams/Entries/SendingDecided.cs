namespace PupilBridge.Exams.Entries;

/// <summary>What a person decided about the sending of a signed version.</summary>
public enum SendingDecision
{
    /// <summary>It is tried again.</summary>
    Again = 1,

    /// <summary>It is not sent.</summary>
    Withheld = 2,
}

/// <summary>A person decided whether a signed version is sent to another system, or its withdrawal where the exam was set aside.</summary>
public sealed record SendingDecided : ExamEntry
{
    /// <summary>The signed version, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>What was decided.</summary>
    public required SendingDecision Decision { get; init; }

    /// <summary>Why; null once it has been erased.</summary>
    public required string? Reason { get; init; }
}
