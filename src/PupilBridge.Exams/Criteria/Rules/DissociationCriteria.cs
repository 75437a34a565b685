using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Light-near dissociation: the light response is poor, and the near response exceeds it, in like room light.</summary>
internal static class DissociationCriteria
{
    public static readonly Criterion Dissociation = new()
    {
        Id = "light-near-dissociation",
        Kind = CriterionKind.Sign,
        Reads =
        [
            "grade of the direct response",
            "grade of the near response",
            "room light of both",
            "state of that eye",
        ],
        Limit = new(1, "grade", "no published number; ours", nameof(CriteriaLimits.DissociationHalfSteps)),
        Sources =
        [
            "Three dictionaries and handbooks: near response stronger than light response, light poor or absent; no number is published",
        ],
        Asks = "the near response of {eye} exceeds its poor light response",
        WhenMet =
            "Near response of {eye} exceeds its poor light response ({detail}), in like room light. Consistent with light-near dissociation.",
        WhenNotMet = "Light and near response of {eye} ({detail}) show no light-near dissociation.",
        Caution =
            "Named with it: severe afferent loss of both eyes, tonic pupil, Argyll Robertson pupils, dorsal midbrain syndrome, aberrant regeneration of the third nerve. Consider which fits.",
        Questions = ["One eye or both?", "Looking up, convergence?", "Sight of both eyes?"],
        FurtherLook =
            "Watch how fast the pupil widens again after near; look at it enlarged for segments; eye movements upwards.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var eye in Sides.Both)
        {
            var (verdict, reason) = Decide(input, eye);
            yield return FindingText.Complete(
                Dissociation,
                new()
                {
                    Criterion = Dissociation.Id,
                    Verdict = verdict,
                    Reason = reason,
                    Eye = eye,
                    Limit = input.LimitsInUse.DissociationHalfSteps / 2.0,
                    Detail = Detail(input, eye),
                }
            );
        }
    }

    private static (CriterionVerdict, FindingReason) Decide(CriteriaInput input, Eye eye)
    {
        var light = CurrentJudgements.Direct(input.Exam, eye);
        var near = CurrentJudgements.Near(input.Exam, eye);
        if (
            light?.Judgement is not DirectResponse direct
            || near?.Judgement is not NearResponse { Grade: var nearGrade }
        )
            return (CriterionVerdict.NotExamined, FindingReason.InputMissing);
        if (!direct.Grade.WasSeen || !nearGrade.WasSeen)
            return (CriterionVerdict.CannotTell, FindingReason.CouldNotSee);
        var poor = DirectCriteria.IsPoor(input, eye);
        if (poor.Verdict == CriterionVerdict.CannotTell)
            return poor;
        if (Contradictions.Others(input.Exam, near).Length > 0 || Contradictions.Others(input.Exam, light).Length > 0)
            return (CriterionVerdict.CannotTell, FindingReason.Contradiction);
        if (light.Light is null || light.Light != near.Light)
            return (CriterionVerdict.CannotTell, FindingReason.UnlikeLight);
        var excess = nearGrade.HalfSteps!.Value - direct.Grade.HalfSteps!.Value;
        if (poor.Verdict == CriterionVerdict.NotMet || excess <= 0)
            return (CriterionVerdict.NotMet, FindingReason.None);
        // Half a grade is within what one person gives twice.
        return excess >= input.LimitsInUse.DissociationHalfSteps
            ? (CriterionVerdict.Met, FindingReason.None)
            : (CriterionVerdict.CannotTell, FindingReason.Uncertainty);
    }

    private static string Detail(CriteriaInput input, Eye eye)
    {
        var direct = (CurrentJudgements.Direct(input.Exam, eye)?.Judgement as DirectResponse)?.Grade;
        var near = (CurrentJudgements.Near(input.Exam, eye)?.Judgement as NearResponse)?.Grade;
        return $"light {Notation.Words.Of(direct)}, near {Notation.Words.Of(near)}";
    }
}
