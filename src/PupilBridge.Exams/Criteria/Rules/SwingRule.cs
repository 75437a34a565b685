using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>What each dwell of the swinging test showed, and what they add up to.</summary>
internal static class SwingRule
{
    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        var swinging = Swinging.Of(input.Exam);
        yield return Dwell(input, SwingCriteria.Short, swinging.ShortDwell);
        yield return Dwell(input, SwingCriteria.Long, swinging.LongDwell);
        yield return Rapd(input, swinging);
    }

    private static Finding Dwell(CriteriaInput input, Criterion criterion, DwellReading reading)
    {
        var (verdict, reason) = Outcome(reading);
        var finding = new Finding
        {
            Criterion = criterion.Id,
            Verdict = verdict,
            Reason = reason,
            Block = reading.Dwell,
            Eye = verdict == CriterionVerdict.Met ? reading.Outcome!.Finding.WorseEye() : null,
        };
        return FindingText.Complete(criterion, finding, ImitationCautions.Of(input));
    }

    /// <summary>What one dwell says, whatever the other one says.</summary>
    public static (CriterionVerdict Verdict, FindingReason Reason) Outcome(DwellReading reading)
    {
        if (reading.Outcome is not { } outcome)
            return (CriterionVerdict.NotExamined, FindingReason.InputMissing);
        if (!reading.WasSeen)
            return (CriterionVerdict.CannotTell, FindingReason.CouldNotSee);
        if (reading.Doubt != SwingDoubt.None)
            return (CriterionVerdict.CannotTell, ReasonOf(reading.Doubt));
        var isWorse = outcome.Finding.WorseEye() is not null;
        return (isWorse ? CriterionVerdict.Met : CriterionVerdict.NotMet, FindingReason.None);
    }

    /// <summary>A doubt about the swinging test, as a finding names it.</summary>
    public static FindingReason ReasonOf(SwingDoubt doubt) =>
        doubt switch
        {
            SwingDoubt.None => FindingReason.None,
            SwingDoubt.Disagree => FindingReason.Disagree,
            SwingDoubt.EyeStatus => FindingReason.EyeStatus,
            SwingDoubt.WatchedPupilStill => FindingReason.WatchedPupilFixed,
            SwingDoubt.NearFixation => FindingReason.NearFixation,
            SwingDoubt.Contradiction => FindingReason.Contradiction,
            _ => FindingReason.Untimely,
        };

    private static Finding Rapd(CriteriaInput input, Swinging swinging)
    {
        var (verdict, reason, eye) = Sum(input, swinging);
        var finding = new Finding
        {
            Criterion = SwingCriteria.Rapd.Id,
            Verdict = verdict,
            Reason = reason,
            Eye = eye,
            Detail = Where(swinging),
        };
        return FindingText.Complete(SwingCriteria.Rapd, finding, ImitationCautions.Of(input));
    }

    private static (CriterionVerdict Verdict, FindingReason Reason, Eye? Eye) Sum(
        CriteriaInput input,
        Swinging swinging
    )
    {
        if (swinging.State == SwingState.Seen)
            return (CriterionVerdict.Met, FindingReason.None, swinging.Eye);
        if (swinging.Doubt != SwingDoubt.None)
            return (CriterionVerdict.CannotTell, ReasonOf(swinging.Doubt), null);
        if (swinging.Dwells.Any(d => d.Outcome is not null && !d.WasSeen))
            return (CriterionVerdict.CannotTell, FindingReason.CouldNotSee, null);
        // "None" needs every dwell that belongs to the test here; a defect needs one.
        var isWhole = swinging.Dwells.All(d => d.WasSeen || !Belongs(input, d.Dwell));
        return isWhole && swinging.State == SwingState.NoneSeen
            ? (CriterionVerdict.NotMet, FindingReason.None, null)
            : (CriterionVerdict.NotExamined, FindingReason.InputMissing, null);
    }

    private static bool Belongs(CriteriaInput input, Block dwell)
    {
        var steps = input.Exam.Profile.Steps;
        var hasNone = !steps.Contains(ExamStep.SwingShort) && !steps.Contains(ExamStep.SwingLong);
        return hasNone || steps.Contains(dwell == Block.SwingShort ? ExamStep.SwingShort : ExamStep.SwingLong);
    }

    private static string Where(Swinging swinging) =>
        string.Join(
            " and ",
            swinging
                .Dwells.Where(d => d.Outcome is { Finding: not SwingFinding.CouldNotSee })
                .Select(d => d.Dwell == Block.SwingShort ? "short dwell" : "long dwell")
        );
}
