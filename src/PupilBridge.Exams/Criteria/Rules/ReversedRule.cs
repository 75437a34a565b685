using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>
/// Where one pupil does not move, the swinging test is read from the working pupil alone, and the eye that was lit is kept apart from
/// the pupil that was watched.
/// </summary>
internal static class ReversedRule
{
    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        var (verdict, reason, eye, detail) = Decide(input);
        yield return FindingText.Complete(
            SwingCriteria.Reversed,
            new()
            {
                Criterion = SwingCriteria.Reversed.Id,
                Verdict = verdict,
                Reason = reason,
                Eye = eye,
                Detail = detail,
            },
            ImitationCautions.Of(input)
        );
    }

    private static (CriterionVerdict, FindingReason, Eye?, string) Decide(CriteriaInput input)
    {
        var still = Sides.Both.Where(e => PupilMotions.MayBeFixed(input.Exam, e)).ToArray();
        var judged = Swinging.Of(input.Exam).Dwells.Where(d => d.Outcome is not null).ToArray();
        // With two working pupils, or none, there is no such reading.
        if (still.Length != 1 || judged.Length == 0)
            return (CriterionVerdict.NotExamined, FindingReason.InputMissing, null, "");
        var working = still[0].Fellow();
        var alone = working == Eye.Right ? PupilsObserved.Right : PupilsObserved.Left;
        if (judged.Any(d => d.Outcome!.Observed != alone))
            return (CriterionVerdict.CannotTell, FindingReason.WatchedPupilFixed, null, "");
        var findings = judged
            .Select(d => d.Outcome!.Finding)
            .Where(f => f != SwingFinding.CouldNotSee)
            .Distinct()
            .ToArray();
        if (findings.Length > 1)
            return (CriterionVerdict.CannotTell, FindingReason.Disagree, null, "");
        var outcomes = judged.Select(SwingRule.Outcome).ToArray();
        if (outcomes.Any(o => o.Verdict == CriterionVerdict.Met))
        {
            var worse = findings[0].WorseEye()!.Value;
            return (CriterionVerdict.Met, FindingReason.None, worse, Words(working, worse));
        }

        var doubt = outcomes.FirstOrDefault(o => o.Verdict == CriterionVerdict.CannotTell);
        return doubt.Reason != FindingReason.None
            ? (CriterionVerdict.CannotTell, doubt.Reason, null, "")
            : (CriterionVerdict.NotMet, FindingReason.None, null, "");
    }

    private static string Words(Eye working, Eye worse) =>
        working == worse
            ? $"the pupil of {Notation.Words.Of(working)}, watched alone, narrowed more with the light in the eye whose pupil does not move."
            : $"the pupil of {Notation.Words.Of(working)}, watched alone, widened with the light in {Notation.Words.Of(worse)}, the eye whose pupil does not move.";
}
