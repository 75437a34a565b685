using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>
/// What was seen at the swinging test through one neutral-density filter: one step of a bracket. Steps follow each other from 0.3 log
/// units; a step at 0.3 when another one is due begins the bracket anew.
/// </summary>
public sealed record FilterStepEntered : ExamEntry
{
    /// <summary>Before which eye the filter was held: the better one.</summary>
    public required Eye BeforeEye { get; init; }

    /// <summary>The filter, in steps of 0.3 log units from 1.</summary>
    public required int FilterSteps { get; init; }

    /// <summary>What was seen, of the eye found worse without a filter.</summary>
    public required BracketAnswer Answer { get; init; }
}

/// <summary>A person graded a relative afferent defect on the scale of Bell 1993; the latest one holds.</summary>
public sealed record BellGradeEntered : ExamEntry
{
    /// <summary>The eye of the defect.</summary>
    public required Eye Eye { get; init; }

    /// <summary>The grade, of that scale alone.</summary>
    public required BellGrade Grade { get; init; }
}
