using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;

namespace PupilBridge.Exams.Records;

/// <summary>The calibration that stood behind the sizes when the exam opened.</summary>
/// <param name="Standing"><c>holds</c>, <c>missing</c>, <c>expired</c> or <c>failed</c>, at the exam.</param>
/// <param name="Number">The number of its certificate; null if there was none.</param>
/// <param name="Effective">From when on it corrected diameters.</param>
/// <param name="Expires">From when on it counts as expired; null where it does not.</param>
/// <param name="Sequence">The entry that issued it.</param>
public sealed record RecordCalibration(
    string Standing,
    long? Number,
    string? Effective,
    string? Expires,
    long? Sequence
)
{
    /// <summary>What an exam names.</summary>
    /// <param name="exam">The exam.</param>
    public static RecordCalibration Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var issued = exam.Calibration;
        return new(
            RecordWords.Of(CalibrationStandings.Of(exam)),
            issued?.Number,
            issued is null ? null : RecordWords.Of(issued.Effective),
            issued?.Expires is { } expires ? RecordWords.Of(expires) : null,
            issued?.Sequence.Value
        );
    }
}
