using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Bench;

/// <summary>How a calibration stands at a moment.</summary>
public enum CalibrationStanding
{
    /// <summary>It holds.</summary>
    Holds = 1,

    /// <summary>There is none.</summary>
    Missing = 2,

    /// <summary>It has expired. It still corrects, since it is the best that is known, and every output says so.</summary>
    Expired = 3,

    /// <summary>
    /// A scale's error was beyond the limit, surely or likely. The correction is applied all the same, and every output says so.
    /// </summary>
    Failed = 4,
}

/// <summary>How calibrations stand.</summary>
public static class CalibrationStandings
{
    /// <summary>How the calibration of an exam stood when the exam opened.</summary>
    /// <param name="exam">The exam.</param>
    public static CalibrationStanding Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return Of(exam.Calibration, exam.Opening.When.At);
    }

    /// <summary>How a calibration stands.</summary>
    /// <param name="calibration">The calibration; null if there is none.</param>
    /// <param name="at">When.</param>
    /// <returns>The worst that holds: failed before expired.</returns>
    public static CalibrationStanding Of(IssuedCalibration? calibration, UtcTime at)
    {
        if (calibration is not { } issued)
            return CalibrationStanding.Missing;
        if (IsBeyond(issued.Scales.Right.Statement) || IsBeyond(issued.Scales.Left.Statement))
            return CalibrationStanding.Failed;
        return issued.Expires is { } expires && at >= expires ? CalibrationStanding.Expired : CalibrationStanding.Holds;
    }

    private static bool IsBeyond(ConformityStatement statement) =>
        statement is ConformityStatement.Fail or ConformityStatement.ConditionalFail;
}
