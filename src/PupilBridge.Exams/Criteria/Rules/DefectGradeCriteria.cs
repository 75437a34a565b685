using System.Globalization;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria.Grading;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>How great a relative afferent defect is: by filters, or on Bell's scale. The two are never converted into each other.</summary>
internal static class DefectGradeCriteria
{
    public static readonly Criterion LogUnits = new()
    {
        Id = "rapd-log-units",
        Kind = CriterionKind.Sign,
        Reads = ["answers of the neutral-density bracket", "swinging outcomes"],
        Limit = null,
        Unit = "log units",
        Sources =
        [
            "Thompson HS, Corbett JJ, Cox TA, Surv Ophthalmol 1981;26(1):39-42 (not opened; the method is from memory)",
        ],
        Asks = "the defect was bracketed by neutral-density filters",
        WhenMet =
            "RAPD of {eye} by neutral-density filters before {fellow}: {detail}. Filters are 0.3 log units apart; nothing is interpolated.",
        WhenNotMet = "The defect was not bracketed.",
        Caution = "One value with a side; it compares the eyes and says nothing of a loss alike in both.",
        FurtherLook = "Compare with the same bracket at the next visit.",
    };

    public static readonly Criterion Bell = new()
    {
        Id = "rapd-bell-grade",
        Kind = CriterionKind.Sign,
        Reads = ["grade on Bell's scale", "stimuli of the long dwell", "swinging outcomes"],
        Limit = new(6, "s", "Bell et al. 1993, for grade IV", nameof(CriteriaLimits.BellProlongedMilliseconds)),
        Sources =
        [
            "Bell RA et al., Arch Ophthalmol 1993;111(7):938-942 (abstract): five grades, 119 patients, resident and group agreed in 78 %",
        ],
        Asks = "the defect has a grade on the scale of Bell 1993",
        WhenMet = "RAPD of {eye}, scale Bell 1993: {detail}.",
        WhenNotMet = "The defect has no grade on the scale of Bell 1993.",
        Caution =
            "Several published scales share the word \"grade\"; this one is not converted into another or into log units.",
        FurtherLook = "Bracket it with neutral-density filters.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        var worse = Swinging.Of(input.Exam);
        yield return Filters(input, worse);
        yield return Graded(input, worse);
    }

    private static Finding Filters(CriteriaInput input, Swinging swinging)
    {
        var finding = Missing(LogUnits);
        if (input.BracketInUse is { } bracket)
        {
            var reading = bracket.Reading;
            var (verdict, reason) = reading.State switch
            {
                BracketState.Running => (CriterionVerdict.CannotTell, FindingReason.NotFinished),
                BracketState.Inconclusive => (CriterionVerdict.CannotTell, FindingReason.Contradiction),
                _ when swinging.Eye != bracket.WorseEye => (CriterionVerdict.CannotTell, WhyNot(swinging)),
                _ => (CriterionVerdict.Met, FindingReason.None),
            };
            finding = finding with
            {
                Verdict = verdict,
                Reason = reason,
                Eye = bracket.WorseEye,
                Value = verdict == CriterionVerdict.Met ? reading.LogUnits : null,
                Detail = Words(reading),
            };
        }

        return FindingText.Complete(LogUnits, finding, ImitationCautions.Of(input));
    }

    private static Finding Graded(CriteriaInput input, Swinging swinging)
    {
        var prolonged = input.LimitsInUse.BellProlongedMilliseconds;
        var finding = Missing(Bell) with { Limit = prolonged / 1000.0 };
        if (input.BellInUse is { } given)
        {
            var offered = BellScale.Offered(input.Exam, given.Eye, prolonged);
            var (verdict, reason) = (CriterionVerdict.Met, FindingReason.None);
            if (!offered.Contains(given.Grade))
                (verdict, reason) = (
                    CriterionVerdict.CannotTell,
                    offered.IsEmpty ? FindingReason.NotFinished : FindingReason.NoSixSeconds
                );
            else if (swinging.Eye != given.Eye)
                (verdict, reason) = (CriterionVerdict.CannotTell, WhyNot(swinging));
            finding = finding with
            {
                Verdict = verdict,
                Reason = reason,
                Eye = given.Eye,
                Detail = $"grade {given.Grade} ({BellScale.Words(given.Grade)})",
            };
        }

        return FindingText.Complete(Bell, finding, ImitationCautions.Of(input));
    }

    // A grade belongs to a defect that the swinging test showed, on its side; where the test claims nothing, that is the reason.
    private static FindingReason WhyNot(Swinging swinging) =>
        swinging.Doubt == SwingDoubt.None ? FindingReason.Disagree : SwingRule.ReasonOf(swinging.Doubt);

    private static Finding Missing(Criterion criterion) =>
        new()
        {
            Criterion = criterion.Id,
            Verdict = CriterionVerdict.NotExamined,
            Reason = FindingReason.InputMissing,
        };

    private static string Words(BracketReading reading)
    {
        static string Text(double? value) => value!.Value.ToString("0.0", CultureInfo.InvariantCulture);
        return reading.State switch
        {
            BracketState.Nulled => $"{Text(reading.LogUnits)} log units",
            BracketState.Between => $"between {Text(reading.LogUnits)} and {Text(reading.UpperLogUnits)} log units",
            BracketState.BeyondStrongest => $"more than {Text(reading.LogUnits)} log units",
            _ => "",
        };
    }
}
