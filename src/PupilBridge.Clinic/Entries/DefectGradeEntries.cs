namespace PupilBridge.Clinic.Entries;

/// <summary>Enters what was seen at the swinging test through one neutral-density filter.</summary>
public sealed record FilterStepEntry : ExamDeskEntry
{
    /// <summary>Before which eye the filter was held: <c>OD</c> or <c>OS</c>.</summary>
    public required string BeforeEye { get; init; }

    /// <summary>The filter in log units: 0.3, 0.6, …</summary>
    public required decimal LogUnits { get; init; }

    /// <summary>
    /// What was seen: the eye that was the worse one, <c>OD</c> or <c>OS</c>; <c>alike</c>; or <c>could-not-see</c>. Exactly one of them;
    /// both eyes cannot be the worse one, and that is refused with the reason.
    /// </summary>
    public required IReadOnlyList<string> Seen { get; init; }
}

/// <summary>Enters a grade on the scale of Bell 1993.</summary>
public sealed record BellGradeEntry : ExamDeskEntry
{
    /// <summary>The eye of the defect: <c>OD</c> or <c>OS</c>.</summary>
    public required string Eye { get; init; }

    /// <summary>The grade: <c>I</c>, <c>II</c>, <c>III</c>, <c>IV</c> or <c>V</c>.</summary>
    public required string Grade { get; init; }
}
