using System.Collections.Immutable;
using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Timing, lamps, eyes and completeness of an exam.</summary>
internal static class QualityRule
{
    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var block in new[] { Block.Direct, Block.SwingShort, Block.SwingLong })
            yield return Timing(input.Exam, block);
        yield return Balance(input);
        foreach (var eye in Sides.Both)
            yield return Status(input.Exam, eye);
        yield return FixationRule.Of(input.Exam);
        yield return Incomplete(input.Exam);
    }

    private static Finding Timing(Exam exam, Block block)
    {
        var run = BlockRuns.Of(exam, block).LastOrDefault();
        var stimuli = exam.Stimuli.Where(s => run is not null && s.Block == block && s.Run == run.Number);
        var off = stimuli.Where(IsOff).Count;
        var (verdict, reason) = (CriterionVerdict.NotMet, FindingReason.None);
        if (off > 0)
            verdict = CriterionVerdict.Met;
        else if (run is not { HasReachedCount: true })
            (verdict, reason) = (
                CriterionVerdict.NotExamined,
                run is null ? FindingReason.InputMissing : FindingReason.NotFinished
            );
        else if (stimuli.Any(s => !IsKnown(s)))
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.Uncertainty);
        var detail = off == 1 ? "1 stimulus" : $"{off} stimuli";
        return FindingText.Complete(
            QualityCriteria.Timing,
            Make(QualityCriteria.Timing, verdict, reason, detail) with
            {
                Block = block,
            }
        );
    }

    private static bool IsOff(Stimulus s) =>
        s.DwellVerdict is TimingVerdict.TooShort or TimingVerdict.TooLong
        || s.GapVerdict is TimingVerdict.TooShort or TimingVerdict.TooLong;

    private static bool IsKnown(Stimulus s) =>
        s is { End: StimulusEnd.Complete, DwellVerdict: TimingVerdict.Within }
        && s.GapVerdict != TimingVerdict.CannotTell;

    private static Finding Balance(CriteriaInput input)
    {
        var limit = input.LimitsInUse.LampBalanceDays;
        var (verdict, reason) = input.LampBalanceAgeDays switch
        {
            null => (CriterionVerdict.NotExamined, FindingReason.NeverChecked),
            var age => (age > limit ? CriterionVerdict.Met : CriterionVerdict.NotMet, FindingReason.None),
        };
        var finding = Make(
            QualityCriteria.LampBalance,
            verdict,
            reason,
            input.LampBalanceAgeDays?.ToString(CultureInfo.InvariantCulture) ?? ""
        );
        return FindingText.Complete(
            QualityCriteria.LampBalance,
            finding with
            {
                Limit = limit,
                Value = input.LampBalanceAgeDays,
            }
        );
    }

    private static Finding Status(Exam exam, Eye eye)
    {
        var status = ExamConditions.StatusOf(exam, eye);
        var (verdict, reason) = status switch
        {
            null => (CriterionVerdict.NotExamined, FindingReason.InputMissing),
            EyeConditions.None => (CriterionVerdict.NotMet, FindingReason.None),
            _ => (CriterionVerdict.Met, FindingReason.None),
        };
        var detail = status is { } conditions ? Words.Of(conditions) : "";
        var finding = Make(QualityCriteria.EyeStatus, verdict, reason, detail) with { Eye = eye };
        return FindingText.Complete(QualityCriteria.EyeStatus, finding);
    }

    private static Finding Incomplete(Exam exam)
    {
        var open = ExamSteps
            .Of(exam)
            .Where(s => s.Step != ExamStep.Consensual && s.State is not (StepState.Done or StepState.NotPossible))
            .ToImmutableArray();
        var (verdict, reason) = (CriterionVerdict.NotMet, FindingReason.None);
        if (open.Length > 0 && exam.TakesEvents)
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.StillRunning);
        else if (open.Length > 0)
            verdict = CriterionVerdict.Met;
        var detail = string.Join(", ", open.Select(Step));
        return FindingText.Complete(
            QualityCriteria.Incomplete,
            Make(QualityCriteria.Incomplete, verdict, reason, detail)
        );
    }

    private static string Step(StepStatus status) =>
        status.Missing.Length == 1
            ? $"{Words.Of(status.Step)} of {Words.Of(status.Missing[0])}"
            : Words.Of(status.Step);

    private static Finding Make(Criterion criterion, CriterionVerdict verdict, FindingReason reason, string detail) =>
        new()
        {
            Criterion = criterion.Id,
            Verdict = verdict,
            Reason = reason,
            Detail = detail,
        };
}
