using System.Globalization;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Bench;

/// <summary>How a calibration stands, for a person.</summary>
internal static class CalibrationViews
{
    /// <summary>At a moment.</summary>
    public static CalibrationView Of(IssuedCalibration? calibration, UtcTime at)
    {
        var standing = CalibrationStandings.Of(calibration, at);
        var expires = calibration?.Expires is { } last
            ? last.ToDateTimeOffset().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
            : "";
        return new CalibrationView(
            BenchWords.Standings[standing],
            calibration?.Number,
            calibration is null ? null : Shown.Time(calibration.Effective),
            calibration?.Expires is { } end ? Shown.Time(end) : null,
            standing == CalibrationStanding.Holds && expires.Length == 0
                ? ClinicText.Bench.Get("Calibration.HoldsForGood", calibration!.Number)
                : ClinicText.Bench.Of("Calibration", standing, calibration?.Number ?? 0, expires)
        );
    }
}
