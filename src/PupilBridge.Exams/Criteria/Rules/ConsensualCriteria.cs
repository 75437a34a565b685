using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>
/// Direct and consensual responses together tell a fault on the way in from one on the way out: the fellow's pupil shows what the lit
/// eye takes in, and light in the fellow shows whether this pupil can move.
/// </summary>
internal static class ConsensualCriteria
{
    private static readonly ValueList<string> Inputs =
    [
        "direct response of the eye",
        "consensual response to light in the eye",
        "consensual response to light in the fellow eye",
        "state of both eyes",
    ];

    public static readonly Criterion Afferent = new()
    {
        Id = "afferent-pattern",
        Kind = CriterionKind.Sign,
        Reads = Inputs,
        Limit = new(1, "grade", "common practice; the number is ours", nameof(CriteriaLimits.PoorDirectAtMost)),
        Sources = ["Common teaching, from memory"],
        Asks = "light in {eye} narrows neither pupil while {eye} narrows to light in {fellow}",
        WhenMet =
            "Light in {eye} narrows neither pupil well, and {eye} narrows to light in {fellow}. Consistent with an afferent fault of {eye}.",
        WhenNotMet = "Direct and consensual responses do not show an afferent pattern of {eye}.",
        Caution = "Consider disease of the retina or the optic nerve on that side.",
        Questions = ["Sight of that eye? Colours?"],
        FurtherLook = "Swinging test; neutral-density filters; sight and fields.",
    };

    public static readonly Criterion Efferent = new()
    {
        Id = "efferent-pattern",
        Kind = CriterionKind.Sign,
        Reads = Inputs,
        Limit = Afferent.Limit,
        Sources = Afferent.Sources,
        Asks = "{eye} narrows to light in neither eye while {fellow} narrows to light in {eye}",
        WhenMet =
            "{eye} narrows well to light in neither eye, and {fellow} narrows to light in {eye}. Consistent with an efferent fault of {eye}.",
        WhenNotMet = "Direct and consensual responses do not show an efferent pattern of {eye}.",
        Caution =
            "Consider the third nerve, the iris, or a drug; with a drooping lid or limited eye movements it is an emergency.",
        Questions = ["Lid, eye movements, double vision?", "Drops, patches, plants?", "Injury, pain, haloes?"],
        FurtherLook = "Near response of {eye}; shape; the swinging test read from {fellow} alone.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var eye in Sides.Both)
        {
            var (afferent, efferent) = Decide(input, eye);
            yield return Make(input, Afferent, eye, afferent);
            yield return Make(input, Efferent, eye, efferent);
        }
    }

    private static Finding Make(
        CriteriaInput input,
        Criterion criterion,
        Eye eye,
        (CriterionVerdict Verdict, FindingReason Reason) outcome
    ) =>
        FindingText.Complete(
            criterion,
            new()
            {
                Criterion = criterion.Id,
                Verdict = outcome.Verdict,
                Reason = outcome.Reason,
                Eye = eye,
                Limit = input.LimitsInUse.PoorDirectAtMost.Value,
            }
        );

    private static ((CriterionVerdict, FindingReason) Afferent, (CriterionVerdict, FindingReason) Efferent) Decide(
        CriteriaInput input,
        Eye eye
    )
    {
        static ((CriterionVerdict, FindingReason), (CriterionVerdict, FindingReason)) Both(
            CriterionVerdict verdict,
            FindingReason reason
        ) => ((verdict, reason), (verdict, reason));
        var direct = DirectCriteria.IsPoor(input, eye);
        var (fromThis, fromFellow) = (Consensual(input, eye), Consensual(input, eye.Fellow()));
        if (direct.Verdict == CriterionVerdict.NotExamined || fromThis is null || fromFellow is null)
            return Both(CriterionVerdict.NotExamined, FindingReason.InputMissing);
        if (direct.Verdict == CriterionVerdict.CannotTell)
            return Both(direct.Verdict, direct.Reason);
        if (EyeEffects.OnResponse(input.Exam, eye.Fellow()))
            return Both(CriterionVerdict.CannotTell, FindingReason.EyeStatus);
        if (fromThis is { WasSeen: false } || fromFellow is { WasSeen: false })
            return Both(CriterionVerdict.CannotTell, FindingReason.CouldNotSee);
        if (direct.Verdict == CriterionVerdict.NotMet)
            return Both(CriterionVerdict.NotMet, FindingReason.None);
        var limit = input.LimitsInUse.PoorDirectAtMost.HalfSteps;
        if (IsDisputed(input.Exam, eye, limit) || IsDisputed(input.Exam, eye.Fellow(), limit))
            return Both(CriterionVerdict.CannotTell, FindingReason.Contradiction);
        var (isPoorFromThis, isPoorFromFellow) = (
            fromThis.Value.HalfSteps <= limit,
            fromFellow.Value.HalfSteps <= limit
        );
        if (isPoorFromThis == isPoorFromFellow)
            return Both(
                CriterionVerdict.CannotTell,
                isPoorFromThis ? FindingReason.BothPoor : FindingReason.Contradiction
            );
        var (met, not) = ((CriterionVerdict.Met, FindingReason.None), (CriterionVerdict.NotMet, FindingReason.None));
        return isPoorFromThis ? (met, not) : (not, met);
    }

    /// <summary>Whether one person calls the response poor and another does not.</summary>
    private static bool IsDisputed(Exam exam, Eye lit, int? limit) =>
        CurrentJudgements.Consensual(exam, lit) is { Judgement: ConsensualResponse { Grade: var stands } } record
        && Contradictions
            .Others(exam, record)
            .Any(other =>
                other.Judgement is ConsensualResponse said
                && said.Grade.HalfSteps <= limit != (stands.HalfSteps <= limit)
            );

    private static Grade? Consensual(CriteriaInput input, Eye lit) =>
        (CurrentJudgements.Consensual(input.Exam, lit)?.Judgement as ConsensualResponse)?.Grade;
}
