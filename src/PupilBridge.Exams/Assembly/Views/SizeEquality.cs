using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>Why the sizes of both eyes under one light cannot be compared.</summary>
public enum EqualityObstacle
{
    /// <summary>They can.</summary>
    None = 0,

    /// <summary>Not both eyes were measured under this light.</summary>
    NotBothMeasured = 1,

    /// <summary>
    /// The eyes had been in the dark for different times, and not both for long enough to have settled.
    /// </summary>
    DarkUnequalAndUnsettled = 2,

    /// <summary>How long the eyes had been in the dark is not known.</summary>
    DarkUnknown = 3,

    /// <summary>The patient looked near for at least one of them.</summary>
    NearFixation = 4,

    /// <summary>The state of an eye makes its size unreliable.</summary>
    EyeStatus = 5,
}

/// <summary>How the sizes of both eyes stand to each other under one light.</summary>
/// <param name="Light">Under which light.</param>
/// <param name="Verdict">Whether they surely differ by at most the limit; null if they cannot be compared.</param>
/// <param name="Obstacle">Why they cannot be compared.</param>
/// <param name="DifferenceMillimetres">Right minus left, in mm; null if not both were measured.</param>
/// <param name="ExpandedUncertaintyMillimetres">The difference's expanded uncertainty (k = 2), in mm.</param>
public sealed record SizeEquality(
    RoomLight Light,
    LimitVerdict? Verdict,
    EqualityObstacle Obstacle,
    double? DifferenceMillimetres,
    double? ExpandedUncertaintyMillimetres
)
{
    /// <summary>The two diameters; null if not both were measured.</summary>
    public PerEye<Diameter>? Diameters { get; init; }

    /// <summary>Compares both eyes under one light.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="light">The light.</param>
    /// <param name="corrections">The corrections of both scales; null for those of the exam's own calibration, if it has one.</param>
    /// <returns>The comparison.</returns>
    public static SizeEquality Of(Exam exam, RoomLight light, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var right = PupilSizes.Of(exam, Eye.Right, light, corrections);
        var left = PupilSizes.Of(exam, Eye.Left, light, corrections);
        if (right is null || left is null)
            return new(light, null, EqualityObstacle.NotBothMeasured, null, null);
        var difference = right.Diameter.Millimetres - left.Diameter.Millimetres;
        var uncertainty = Comparison.ExpandedUncertaintyOfDifference(right.Diameter, left.Diameter);
        var obstacle = Obstacles(exam, right, left);
        LimitVerdict? verdict =
            obstacle == EqualityObstacle.None
                ? Comparison.Against(difference, uncertainty, exam.Profile.Chart.EqualWithin.Millimetres)
                : null;
        return new(light, verdict, obstacle, difference, uncertainty)
        {
            Diameters = new() { Right = right.Diameter, Left = left.Diameter },
        };
    }

    private static EqualityObstacle Obstacles(Exam exam, PupilSize right, PupilSize left)
    {
        if (right.WithNearFixation || left.WithNearFixation)
            return EqualityObstacle.NearFixation;
        if (right.IsDoubtful || left.IsDoubtful)
            return EqualityObstacle.EyeStatus;
        return right.Light == RoomLight.Dim ? Dark(exam.Profile.Light, right, left) : EqualityObstacle.None;
    }

    private static EqualityObstacle Dark(Profiles.LightRules rules, PupilSize right, PupilSize left)
    {
        if (right.Capture.DarkMilliseconds is not { } r || left.Capture.DarkMilliseconds is not { } l)
            return EqualityObstacle.DarkUnknown;
        var areAlike = Math.Abs(r - l) <= rules.DarkTimesAlikeWithinMilliseconds;
        var areSettled = Math.Min(r, l) >= rules.DarkSettledAfterMilliseconds;
        return areAlike || areSettled ? EqualityObstacle.None : EqualityObstacle.DarkUnequalAndUnsettled;
    }
}
