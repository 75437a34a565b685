using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
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
        var (verdict, reason) = Outcome(input, reading);
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
    public static (CriterionVerdict Verdict, FindingReason Reason) Outcome(CriteriaInput input, DwellReading reading)
    {
        if (reading.Outcome is not { } outcome)
            return (CriterionVerdict.NotExamined, FindingReason.InputMissing);
        if (outcome.Finding == SwingFinding.CouldNotSee)
            return (CriterionVerdict.CannotTell, FindingReason.CouldNotSee);
        if (reading.DiffersFromBefore)
            return (CriterionVerdict.CannotTell, FindingReason.Disagree);
        if (EyeEffects.OnSwinging(input.Exam, outcome.Observed))
            return (CriterionVerdict.CannotTell, FindingReason.EyeStatus);
        if (PupilMotions.WatchedMayBeFixed(input.Exam, outcome.Observed))
            return (CriterionVerdict.CannotTell, FindingReason.WatchedPupilFixed);
        if (WithNearFixation(input, reading))
            return (CriterionVerdict.CannotTell, FindingReason.NearFixation);
        if (outcome.Finding.WorseEye() is not null)
            return (CriterionVerdict.Met, FindingReason.None);
        return reading.IsTimely
            ? (CriterionVerdict.NotMet, FindingReason.None)
            : (CriterionVerdict.CannotTell, FindingReason.Untimely);
    }

    private static bool WithNearFixation(CriteriaInput input, DwellReading reading) =>
        input.Exam.Judgements.Any(j => j.Sequence == reading.Sequence && j.Fixation == Fixation.Near);

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
        var outcomes = swinging.Dwells.Select(d => (Reading: d, Said: Outcome(input, d))).ToArray();
        var worse = swinging
            .Dwells.Select(d => d.Outcome?.Finding)
            .Where(f => f is not (null or SwingFinding.CouldNotSee));
        if (worse.Distinct().Count() > 1)
            return (CriterionVerdict.CannotTell, FindingReason.Disagree, null);
        var doubt = outcomes.Where(o => o.Said.Verdict == CriterionVerdict.CannotTell).ToArray();
        var seen = outcomes.Where(o => o.Said.Verdict == CriterionVerdict.Met).ToArray();
        // A dwell that could not be seen, beside one that showed a defect, takes nothing from it.
        if (seen.Length > 0 && doubt.All(o => o.Said.Reason == FindingReason.CouldNotSee))
            return (CriterionVerdict.Met, FindingReason.None, seen[0].Reading.Outcome!.Finding.WorseEye());
        if (doubt.Length > 0)
            return (CriterionVerdict.CannotTell, doubt[0].Said.Reason, null);
        // "None" needs every dwell that belongs to the test here; a defect needs one.
        var isWhole = outcomes.All(o => o.Said.Verdict == CriterionVerdict.NotMet || !Belongs(input, o.Reading.Dwell));
        return isWhole && outcomes.Any(o => o.Said.Verdict == CriterionVerdict.NotMet)
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
