namespace PupilBridge.Clinic.Views;

/// <summary>How great a relative afferent defect was found to be, and what can be entered of it next.</summary>
public sealed record DefectGradeView
{
    /// <summary>The eye of the defect that the swinging test shows: <c>OD</c> or <c>OS</c>; null where it shows none.</summary>
    public required string? Eye { get; init; }

    /// <summary>The answers of the latest bracket by filters, in order; empty if none was begun.</summary>
    public required IReadOnlyList<FilterStepView> Steps { get; init; }

    /// <summary>What to do next in the bracket, in words; null where there is no defect to bracket.</summary>
    public required string? Prompt { get; init; }

    /// <summary>The filter to hold next, in log units; null where there is no defect to bracket.</summary>
    public required decimal? NextLogUnits { get; init; }

    /// <summary>Before which eye: <c>OD</c> or <c>OS</c>; null where there is no defect to bracket.</summary>
    public required string? BeforeEye { get; init; }

    /// <summary>The grade on the scale of Bell 1993 that holds; null if none was given.</summary>
    public required BellGradeView? Bell { get; init; }

    /// <summary>The grades of that scale that can be given now; IV only where 6 s of light in the better eye were done.</summary>
    public required IReadOnlyList<OfferedGrade> Offered { get; init; }
}

/// <summary>One answer of a bracket.</summary>
/// <param name="LogUnits">The filter, in log units.</param>
/// <param name="BeforeEye">Before which eye.</param>
/// <param name="Answer">What was seen, in words.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="EntryId">The id of the entry, by which it can be taken back.</param>
/// <param name="Sequence">Its place in the journal.</param>
public sealed record FilterStepView(
    decimal LogUnits,
    string BeforeEye,
    string Answer,
    string Who,
    DateTimeOffset At,
    string EntryId,
    long Sequence
);

/// <summary>A grade on the scale of Bell 1993.</summary>
/// <param name="Eye">The eye of the defect.</param>
/// <param name="Grade">The grade, <c>I</c> to <c>V</c>.</param>
/// <param name="Words">The published criterion.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="EntryId">The id of the entry, by which it can be taken back.</param>
/// <param name="Sequence">Its place in the journal.</param>
public sealed record BellGradeView(
    string Eye,
    string Grade,
    string Words,
    string Who,
    DateTimeOffset At,
    string EntryId,
    long Sequence
);

/// <summary>A grade that can be given now.</summary>
/// <param name="Grade">The grade, <c>I</c> to <c>V</c>.</param>
/// <param name="Words">The published criterion.</param>
public sealed record OfferedGrade(string Grade, string Words);
