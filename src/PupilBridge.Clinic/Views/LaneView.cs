namespace PupilBridge.Clinic.Views;

/// <summary>One instrument with its exam, as it is at one moment.</summary>
public sealed record LaneView
{
    /// <summary>The instrument and its line.</summary>
    public required InstrumentView Instrument { get; init; }

    /// <summary>What the instrument says just now. None of it is recorded unless it says so.</summary>
    public required LiveView Live { get; init; }

    /// <summary>The exam that takes its events, as recorded; null if there is none.</summary>
    public required ExamSummary? Exam { get; init; }

    /// <summary>What that exam asks for; null if there is none.</summary>
    public required AskedForView? AskedFor { get; init; }

    /// <summary>Why nothing can be recorded just now; null when all is well.</summary>
    public required string? Trouble { get; init; }
}

/// <summary>What an instrument says just now: shown at once, and never to be taken for what is recorded.</summary>
public sealed record LiveView
{
    /// <summary>The mode in a word; null if it did not tell.</summary>
    public required string? Mode { get; init; }

    /// <summary>The block in a word; null if it did not tell.</summary>
    public required string? Block { get; init; }

    /// <summary>The right eye's scale and lamp.</summary>
    public required LiveEyeView Right { get; init; }

    /// <summary>The left eye's scale and lamp.</summary>
    public required LiveEyeView Left { get; init; }

    /// <summary>The number of the last event received; 0 for none.</summary>
    public required long ReceivedEvents { get; init; }

    /// <summary>The number of the last event that is on disk; 0 for none.</summary>
    public required long RecordedEvents { get; init; }

    /// <summary>The instrument's last fault in words; null for none.</summary>
    public required string? Fault { get; init; }
}

/// <summary>One eye's side of an instrument, live.</summary>
/// <param name="PositionMicrometres">Where the scale is, in µm; null if it did not tell. Not recorded.</param>
/// <param name="IsMoving">Whether the scale was moving then.</param>
/// <param name="IsLit">Whether the lamp is on.</param>
/// <param name="LampPercent">The lamp's level in percent of full output.</param>
/// <param name="LitSince">Since when it is lit, in UTC, by estimate; null if it is not.</param>
public sealed record LiveEyeView(
    int? PositionMicrometres,
    bool IsMoving,
    bool IsLit,
    int LampPercent,
    DateTimeOffset? LitSince
)
{
    /// <summary>Whether the position is recorded. A live position never is, and it stands here so that no reader forgets it.</summary>
    public bool IsRecorded { get; init; }
}
