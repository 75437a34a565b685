using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>What a lane says of the service bench: how the calibration stands, and a run that takes the instrument's readings.</summary>
internal static class LaneBenches
{
    /// <summary>How the calibration stands: that of the exam at work, as it stood when the exam opened, else the one in force now.</summary>
    public static CalibrationView Calibration(LaneSight sight, DateTimeOffset now) =>
        sight.Exam is { } exam
            ? CalibrationViews.Of(exam.Calibration, exam.Opening.When.At)
            : CalibrationViews.Of(sight.Lane?.CalibrationAt(UtcTime.From(now)), UtcTime.From(now));

    /// <summary>The run on the bench.</summary>
    /// <returns>Null if there is none.</returns>
    public static LaneBench? Run(LaneSight sight)
    {
        if (sight.Book.OpenRunOf(sight.Serial) is not { Bench: { } run } sitting)
        {
            return null;
        }

        var kind = BenchWords.Kinds[run.Kind];
        return new LaneBench(
            sitting.Id.Value,
            kind,
            run.Technician.Value,
            ClinicText.Lane.Get("Bench.Open", ClinicText.Lane.Of("Bench", run.Kind), sitting.Id, run.Technician)
        );
    }

    /// <summary>A diameter as the calibration of the lane corrects it now.</summary>
    /// <param name="sight">The lane.</param>
    /// <param name="eye">Of which scale.</param>
    /// <param name="raw">The difference as read.</param>
    /// <param name="now">The present time.</param>
    /// <returns>The diameter, in mm.</returns>
    public static double Corrected(LaneSight sight, Eye eye, Micrometres raw, DateTimeOffset now)
    {
        var issued = sight.Exam is { } exam ? exam.Calibration : sight.Lane?.CalibrationAt(UtcTime.From(now));
        return (issued?.Corrections[eye] ?? Correction.None).Apply(raw.Millimetres).Millimetres;
    }
}
