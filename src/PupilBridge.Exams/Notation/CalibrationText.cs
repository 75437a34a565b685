using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Notation;

/// <summary>What stands behind the sizes of an exam, in words: the certificate by its number, and loudly what is wrong with it.</summary>
public static class CalibrationText
{
    /// <summary>The words.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>For example <c>calibrated (certificate 7)</c> or <c>CALIBRATION EXPIRED 2026-03-01 (certificate 7)</c>.</returns>
    public static string Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return CalibrationStandings.Of(exam) switch
        {
            CalibrationStanding.Missing => "uncalibrated",
            CalibrationStanding.Holds => $"calibrated ({Certificate(exam)})",
            CalibrationStanding.Expired =>
                $"CALIBRATION EXPIRED {Day(exam.Calibration!.Expires!.Value)} ({Certificate(exam)})",
            _ => $"CALIBRATION FAILED ({Certificate(exam)})",
        };
    }

    private static string Certificate(Exam exam) =>
        string.Create(CultureInfo.InvariantCulture, $"certificate {exam.Calibration!.Number}");

    private static string Day(UtcTime time) =>
        time.ToDateTimeOffset().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
