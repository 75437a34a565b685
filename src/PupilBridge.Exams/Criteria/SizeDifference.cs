using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Criteria;

/// <summary>How a value with its uncertainty stands to a limit, and what stands in the way of saying so.</summary>
internal static class SizeDifference
{
    // Sums of decimals are not exact in binary; a nanometre decides nothing.
    private const double Nanometre = 1e-6;

    /// <summary>Whether a value is surely more than a limit.</summary>
    public static (CriterionVerdict Verdict, FindingReason Reason) Beyond(double value, double expanded, double limit)
    {
        if (value - expanded > limit + Nanometre)
            return (CriterionVerdict.Met, FindingReason.None);
        return value + expanded <= limit + Nanometre
            ? (CriterionVerdict.NotMet, FindingReason.None)
            : (CriterionVerdict.CannotTell, FindingReason.Uncertainty);
    }

    /// <summary>What an obstacle of comparing both eyes comes to.</summary>
    public static (CriterionVerdict Verdict, FindingReason Reason) Obstacle(EqualityObstacle obstacle) =>
        obstacle switch
        {
            EqualityObstacle.NotBothMeasured => (CriterionVerdict.NotExamined, FindingReason.InputMissing),
            EqualityObstacle.DarkUnequalAndUnsettled => (
                CriterionVerdict.CannotTell,
                FindingReason.DarkUnequalAndUnsettled
            ),
            EqualityObstacle.DarkUnknown => (CriterionVerdict.CannotTell, FindingReason.DarkUnknown),
            EqualityObstacle.NearFixation => (CriterionVerdict.CannotTell, FindingReason.NearFixation),
            EqualityObstacle.EyeStatus => (CriterionVerdict.CannotTell, FindingReason.EyeStatus),
            _ => (CriterionVerdict.NotMet, FindingReason.None),
        };

    /// <summary>What stands in the way of using one size.</summary>
    public static FindingReason Trouble(PupilSize size)
    {
        if (size.WithNearFixation)
            return FindingReason.NearFixation;
        return size.IsDoubtful ? FindingReason.EyeStatus : FindingReason.None;
    }

    /// <summary>The comparison of both eyes under a light, in the limits' terms.</summary>
    public static SizeEquality Equality(CriteriaInput input, RoomLight light) =>
        SizeEquality.Of(input.Exam, light, input.Corrections);

    /// <summary>The size of one eye under one light.</summary>
    public static PupilSize? Size(CriteriaInput input, Instrument.Eye eye, RoomLight light) =>
        PupilSizes.Of(input.Exam, eye, light, input.Corrections);

    /// <summary>The caution that belongs to sizes of an instrument without a calibration.</summary>
    public static string[] Uncalibrated(CriteriaInput input) =>
        input.CorrectionsOfExam is { Right.IsCalibrated: true, Left.IsCalibrated: true }
            ? []
            : ["The instrument is not calibrated: an error of its scales is not part of the uncertainty."];
}
