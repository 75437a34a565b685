using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What of an earlier exam of the same patient counts for what is new today.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="OpenedAt">When it opened.</param>
/// <param name="BrightDifferenceMillimetres">Right minus left in bright light, in mm; null if they could not be compared.</param>
/// <param name="DimDifferenceMillimetres">Right minus left in dim light, in mm; null if they could not be compared.</param>
public sealed record EarlierVisit(
    ExamId Exam,
    UtcTime OpenedAt,
    double? BrightDifferenceMillimetres,
    double? DimDifferenceMillimetres
)
{
    /// <summary>The difference under one light.</summary>
    /// <param name="light">The light.</param>
    /// <returns>Right minus left, in mm; null if they could not be compared.</returns>
    public double? Difference(RoomLight light) =>
        light == RoomLight.Bright ? BrightDifferenceMillimetres : DimDifferenceMillimetres;

    /// <summary>What of an exam counts at later visits.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>Null for an exam that was never made ready, or was set aside.</returns>
    public static EarlierVisit? Of(Exam exam, PerEye<ICorrection>? corrections = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        if (exam.Status is not (ExamStatus.ReadyForReview or ExamStatus.Signed or ExamStatus.Amended))
            return null;
        double? Compared(RoomLight light) =>
            SizeEquality.Of(exam, light, corrections) is { Obstacle: EqualityObstacle.None } equality
                ? equality.DifferenceMillimetres
                : null;
        return new(exam.Id, exam.Opening.When.At, Compared(RoomLight.Bright), Compared(RoomLight.Dim));
    }
}
