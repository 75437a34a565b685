using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Cohort.Examining;

/// <summary>An exam that was done, and what was truly done in it.</summary>
public sealed record DoneExam
{
    /// <summary>The exam, as the reducer made it.</summary>
    public required Exam Exam { get; init; }

    /// <summary>The bracket, if one was run.</summary>
    public DensityBracket? Bracket { get; init; }

    /// <summary>The grade on Bell's scale, if one was given.</summary>
    public BellGrading? Bell { get; init; }

    /// <summary>The steps that were truly left out though they were due.</summary>
    public required IReadOnlySet<ExamStep> LeftOut { get; init; }

    /// <summary>The blocks in which at least one lamp truly burned more than 5 % too long or too short.</summary>
    public required IReadOnlySet<Block> OffTime { get; init; }
}
