using PupilBridge.Cohort.Truth;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Cohort.Results;

/// <summary>What a criterion said where something was true: how often.</summary>
public sealed record Counts
{
    /// <summary>Met, and the right eye named where one is.</summary>
    public int Met { get; set; }

    /// <summary>Met, and another eye named.</summary>
    public int MetOtherEye { get; set; }

    /// <summary>Not met.</summary>
    public int NotMet { get; set; }

    /// <summary>Cannot tell.</summary>
    public int CannotTell { get; set; }

    /// <summary>Not examined; never part of sensitivity or specificity.</summary>
    public int NotExamined { get; set; }

    /// <summary>Cannot tell, by reason.</summary>
    public SortedDictionary<FindingReason, int> Reasons { get; } = [];

    /// <summary>Met or not met.</summary>
    public int Decided => Met + MetOtherEye + NotMet;
}

/// <summary>One criterion against the truth.</summary>
public sealed class Tally
{
    /// <summary>Where it is truly there.</summary>
    public Counts Present { get; } = new();

    /// <summary>Where it is truly not.</summary>
    public Counts Absent { get; } = new();

    /// <summary>Met of what is there, of what was decided.</summary>
    public WilsonInterval Sensitivity => new(Present.Met, Present.Decided);

    /// <summary>Not met of what is not there, of what was decided.</summary>
    public WilsonInterval Specificity => new(Absent.NotMet, Absent.Decided);

    /// <summary>The same, "cannot tell" counted as missed.</summary>
    public WilsonInterval SensitivityWithUndecided => new(Present.Met, Present.Decided + Present.CannotTell);

    /// <summary>The same, "cannot tell" counted as missed.</summary>
    public WilsonInterval SpecificityWithUndecided => new(Absent.NotMet, Absent.Decided + Absent.CannotTell);

    internal void Add(Finding finding, TrueAnswer truth)
    {
        var counts = truth.IsPresent ? Present : Absent;
        switch (finding.Verdict)
        {
            case CriterionVerdict.Met when truth.Eye is { } eye && finding.Eye != eye:
                counts.MetOtherEye++;
                break;
            case CriterionVerdict.Met:
                counts.Met++;
                break;
            case CriterionVerdict.NotMet:
                counts.NotMet++;
                break;
            case CriterionVerdict.CannotTell:
                counts.CannotTell++;
                counts.Reasons[finding.Reason] = counts.Reasons.GetValueOrDefault(finding.Reason) + 1;
                break;
            default:
                counts.NotExamined++;
                break;
        }
    }
}
