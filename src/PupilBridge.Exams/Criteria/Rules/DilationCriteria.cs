using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Dilation lag where it was measured, and the observation of a pupil that is slow to dilate.</summary>
internal static class DilationCriteria
{
    public static readonly Criterion Lag = new()
    {
        Id = "dilation-lag",
        Kind = CriterionKind.Sign,
        Reads = ["sizes of both eyes about 5 s and about 15 s after one darkening", "state of both eyes"],
        Limit = new(0.4, "mm", "Crippa et al. 2007", nameof(CriteriaLimits.DilationLag)),
        Sources =
        [
            "Crippa SV, Borruat F-X, Kawasaki A, Am J Ophthalmol 2007;143(4):712-715: 0.4 mm or more in 8 of 15 at the first test, in 13 of 15 within four",
            "\"Evaluation of a simple photographic technique to detect pupillary dilation lag due to Horner's syndrome\" (abstract; authors not shown): 0.4 mm or more, specificity 100 %, sensitivity 48 %",
        ],
        Asks = "the size difference at 5 s of darkness exceeds that at 15 s by {limit} mm or more",
        WhenMet =
            "Dilation lag of {eye}: the size difference at 5 s of darkness exceeds that at 15 s by {value} mm ± {u} mm (k = 2), beyond the limit of {limit} mm. Consistent with a sympathetic defect on that side.",
        WhenNotMet =
            "The size difference at 5 s of darkness exceeds that at 15 s by {value} mm ± {u} mm (k = 2), less than the limit of {limit} mm. A single test misses about half (sensitivity 48 %).",
        Caution =
            "Consider Horner syndrome; a suspicion is referred urgently. New and painful: carotid dissection until shown otherwise.",
        Questions = ["Lid drooping on that side?", "Pain in neck or head?", "Drops?"],
        FurtherLook = "Repeat it: four tests find more than one does. Compare the difference in bright and dim light.",
    };

    public static readonly Criterion Slow = new()
    {
        Id = "slow-to-dilate",
        Kind = CriterionKind.Sign,
        Reads = ["the observation that a pupil is slow to widen when light goes away"],
        Limit = null,
        Sources = ["Common practice; an observation without a limit"],
        Asks = "{eye} was seen to be slow to dilate",
        WhenMet = "{eye} was seen to be slow to dilate; this was observed and not measured.",
        WhenNotMet = "{eye} was not seen to be slow to dilate.",
        Caution = "Consistent with a sympathetic defect on that side, and with other causes.",
        Questions = Lag.Questions,
        FurtherLook = "Measure both eyes about 5 s and about 15 s after the light goes.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        yield return LagOf(input);
        foreach (var eye in Sides.Both)
        {
            var isSeen = CurrentJudgements.SlowToDilate(input.Exam, eye) is not null;
            yield return FindingText.Complete(
                Slow,
                new()
                {
                    Criterion = Slow.Id,
                    Eye = eye,
                    Verdict = isSeen ? CriterionVerdict.Met : CriterionVerdict.NotExamined,
                    Reason = isSeen ? FindingReason.None : FindingReason.InputMissing,
                }
            );
        }
    }

    private static Finding LagOf(CriteriaInput input)
    {
        var limits = input.LimitsInUse;
        var finding = new Finding
        {
            Criterion = Lag.Id,
            Verdict = CriterionVerdict.NotExamined,
            Reason = FindingReason.InputMissing,
            Limit = limits.DilationLag.Millimetres,
        };
        if (Series(input) is not { } series)
            return FindingText.Complete(Lag, finding);
        var (early, late) = (series.Early.Right - series.Early.Left, series.Late.Right - series.Late.Left);
        var sign = early < 0 ? -1 : 1;
        var (lag, expanded) = (sign * (early - late), series.Expanded);
        var (verdict, reason) = SizeDifference.Beyond(lag, expanded, limits.DilationLag.Millimetres);
        if (Sides.Both.Any(eye => EyeEffects.OnSize(input.Exam, eye)))
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.EyeStatus);
        finding = finding with
        {
            Verdict = verdict,
            Reason = reason,
            Value = lag,
            ExpandedUncertainty = expanded,
            Eye = verdict == CriterionVerdict.Met ? AnisocoriaCriteria.Larger(sign)?.Fellow() : null,
        };
        return FindingText.Complete(Lag, finding, SizeDifference.Uncalibrated(input));
    }

    private sealed record LagSeries(
        (double Right, double Left) Early,
        (double Right, double Left) Late,
        double Expanded
    );

    // All four sizes must be of one darkening: time in the dark counts anew after each light.
    private static LagSeries? Series(CriteriaInput input)
    {
        var limits = input.LimitsInUse;
        var dark = input.Exam.Captures.Where(c =>
            c is { Light: RoomLight.Dim, DarkMilliseconds: not null, Fixation: not Fixation.Near }
        );
        foreach (var stretch in dark.GroupBy(Begun).OrderByDescending(g => g.Max(c => c.When.Sequence)))
        {
            Diameter? At(Eye eye, int wanted) =>
                stretch
                    .Where(c =>
                        c.Eye == eye && Math.Abs(c.DarkMilliseconds!.Value - wanted) <= limits.LagWindowMilliseconds
                    )
                    .OrderBy(c => Math.Abs(c.DarkMilliseconds!.Value - wanted))
                    .Select(c =>
                        (Diameter?)PupilSizes.Measure(input.Exam, c, input.CorrectionsOfExam?[eye] ?? Correction.None)
                    )
                    .FirstOrDefault();
            if (
                At(Eye.Right, limits.LagEarlyMilliseconds) is { } r5
                && At(Eye.Left, limits.LagEarlyMilliseconds) is { } l5
                && At(Eye.Right, limits.LagLateMilliseconds) is { } r15
                && At(Eye.Left, limits.LagLateMilliseconds) is { } l15
            )
                return new(
                    (r5.Millimetres, l5.Millimetres),
                    (r15.Millimetres, l15.Millimetres),
                    Comparison.ExpandedUncertaintyOf((1, r5), (-1, l5), (-1, r15), (1, l15))
                );
        }

        return null;
    }

    private static string Begun(Capture capture)
    {
        var at = capture.When.Tick is { } tick ? tick.Milliseconds : capture.When.At.UnixMilliseconds;
        return string.Create(CultureInfo.InvariantCulture, $"{capture.When.Boot} {at - capture.DarkMilliseconds}");
    }
}
