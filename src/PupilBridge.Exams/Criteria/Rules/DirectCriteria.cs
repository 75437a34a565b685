using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Poor direct responses, and the near response that they make due.</summary>
internal static class DirectCriteria
{
    public static readonly Criterion Poor = new()
    {
        Id = "direct-poor",
        Kind = CriterionKind.Sign,
        Reads = ["grade of the direct response", "fixation", "state of that eye"],
        Limit = new(1, "grade", "common practice; the number is ours", nameof(CriteriaLimits.PoorDirectAtMost)),
        Sources = ["Grades 0 to 4 are common practice (0 none, 1 just visible); no metric standard exists"],
        Asks = "the direct response of {eye} is at most grade {limit}",
        WhenMet = "Poor direct response of {eye}: grade {detail}, at most {limit}. Near response due in both eyes.",
        WhenNotMet = "Direct response of {eye}: grade {detail}, more than {limit}.",
        Caution = "Consider a loss on the way in (retina, optic nerve) or on the way out (third nerve, iris, drops).",
        Questions = ["Sight of that eye?", "Drops, injury, pain?"],
        FurtherLook = "Consensual response in both directions; near response in like light; swinging test.",
    };

    public static readonly Criterion NearDue = new()
    {
        Id = "near-due",
        Kind = CriterionKind.Sign,
        Reads = ["grades of both direct responses", "whether the near response was tested"],
        Limit = Poor.Limit,
        Sources = ["Common practice, from memory: the near response is tested where the light response is poor"],
        Asks = "a direct response of at most grade {limit} makes the near response due",
        WhenMet = "Near response due, since a direct response is at most grade {limit}: {detail}.",
        WhenNotMet = "Both direct responses are above grade {limit}; the near response is not due for that.",
        Caution = "",
        FurtherLook = "Near response of both eyes in the light in which the direct response was tested.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var eye in Sides.Both)
            yield return Of(input, eye);
        yield return Due(input);
    }

    /// <summary>Whether an eye's direct response is poor, and what stands in the way of saying so.</summary>
    public static (CriterionVerdict Verdict, FindingReason Reason) IsPoor(CriteriaInput input, Eye eye)
    {
        if (CurrentJudgements.Direct(input.Exam, eye) is not { Judgement: DirectResponse { Grade: var grade } } record)
            return (CriterionVerdict.NotExamined, FindingReason.InputMissing);
        if (grade.HalfSteps is not { } halfSteps)
            return (CriterionVerdict.CannotTell, FindingReason.CouldNotSee);
        if (EyeEffects.OnResponse(input.Exam, eye))
            return (CriterionVerdict.CannotTell, FindingReason.EyeStatus);
        if (record.Fixation == Fixation.Near)
            return (CriterionVerdict.CannotTell, FindingReason.NearFixation);
        var limit = input.LimitsInUse.PoorDirectAtMost.HalfSteps;
        var isPoor = halfSteps <= limit;
        // What one person calls poor and another does not is neither.
        if (
            Contradictions
                .Others(input.Exam, record)
                .Any(other => other.Judgement is DirectResponse said && said.Grade.HalfSteps <= limit != isPoor)
        )
            return (CriterionVerdict.CannotTell, FindingReason.Contradiction);
        return (isPoor ? CriterionVerdict.Met : CriterionVerdict.NotMet, FindingReason.None);
    }

    private static Finding Of(CriteriaInput input, Eye eye)
    {
        var (verdict, reason) = IsPoor(input, eye);
        var grade = (CurrentJudgements.Direct(input.Exam, eye)?.Judgement as DirectResponse)?.Grade;
        return FindingText.Complete(
            Poor,
            new()
            {
                Criterion = Poor.Id,
                Verdict = verdict,
                Reason = reason,
                Eye = eye,
                Value = grade?.Value,
                Limit = input.LimitsInUse.PoorDirectAtMost.Value,
                Detail = grade?.ToString() ?? "",
            }
        );
    }

    private static Finding Due(CriteriaInput input)
    {
        var both = Sides.Both.Select(eye => IsPoor(input, eye)).ToArray();
        // A poor response makes it due whatever else is known, drops or not.
        var isDue = ExamSteps.IsNearDue(input.Exam) || both.Any(b => b.Verdict == CriterionVerdict.Met);
        var open = both.Where(b => b.Verdict != CriterionVerdict.NotMet)
            .OrderByDescending(b => b.Verdict)
            .ThenBy(b => b.Reason)
            .FirstOrDefault();
        var (verdict, reason) = (CriterionVerdict.NotMet, FindingReason.None);
        if (isDue)
            verdict = CriterionVerdict.Met;
        else if (open.Verdict != 0)
            (verdict, reason) = open;
        return FindingText.Complete(
            NearDue,
            new()
            {
                Criterion = NearDue.Id,
                Verdict = verdict,
                Reason = reason,
                Limit = input.LimitsInUse.PoorDirectAtMost.Value,
                Detail = Tested(input.Exam),
            }
        );
    }

    private static string Tested(Exam exam) =>
        Sides.Both.Count(eye => CurrentJudgements.Near(exam, eye) is not null) switch
        {
            2 => "tested in both eyes",
            1 => "tested in one eye only",
            _ => "not examined",
        };
}
