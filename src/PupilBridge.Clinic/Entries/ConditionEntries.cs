namespace PupilBridge.Clinic.Entries;

/// <summary>Says what the room light is, where the instrument does not tell.</summary>
public sealed record RoomLightEntry : ExamDeskEntry
{
    /// <summary><c>bright</c> or <c>dim</c>.</summary>
    public required string Light { get; init; }
}

/// <summary>Says where the patient looks, where the instrument does not tell.</summary>
public sealed record FixationEntry : ExamDeskEntry
{
    /// <summary><c>far</c> or <c>near</c>.</summary>
    public required string Fixation { get; init; }
}

/// <summary>Says what holds of an eye before the test.</summary>
public sealed record EyeStatusEntry : ExamDeskEntry
{
    /// <summary><c>OD</c> or <c>OS</c>.</summary>
    public required string Eye { get; init; }

    /// <summary>
    /// <c>prosthesis</c>, <c>patch</c>, <c>drops</c>, <c>surgery-or-injury</c>, <c>opaque-cornea</c>, <c>lid-down</c>; or
    /// <c>nothing-remarkable</c> alone, where someone looked and none of them holds.
    /// </summary>
    public required IReadOnlyList<string> Conditions { get; init; }
}
