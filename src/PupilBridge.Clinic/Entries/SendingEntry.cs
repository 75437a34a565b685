namespace PupilBridge.Clinic.Entries;

/// <summary>An administrator decides what becomes of a signed version that is on its way to another system.</summary>
public sealed record SendingEntry : ExamDeskEntry
{
    /// <summary>Try it again: <see cref="Decision"/> of a version that was refused, is there twice, or was withheld.</summary>
    public const string Retry = "retry";

    /// <summary>Do not send it: <see cref="Decision"/> of a version that is not there yet.</summary>
    public const string Withhold = "withhold";

    /// <summary>The signed version, from 1.</summary>
    public required int Version { get; init; }

    /// <summary><see cref="Retry"/> or <see cref="Withhold"/>.</summary>
    public required string Decision { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}
