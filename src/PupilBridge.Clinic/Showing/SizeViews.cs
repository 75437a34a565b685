using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;

namespace PupilBridge.Clinic.Showing;

/// <summary>The sizes of an exam, superseded ones included.</summary>
internal static class SizeViews
{
    /// <summary>All captures: first those that count, right eye before left, then the superseded ones.</summary>
    public static IReadOnlyList<SizeView> Of(Exam exam) =>
        [
            .. exam
                .Captures.Select(capture => Of(exam, capture))
                .OrderBy(view => view.IsSuperseded)
                .ThenBy(view => view.Eye, StringComparer.Ordinal)
                .ThenBy(view => view.Sequence),
        ];

    private static SizeView Of(Exam exam, Capture capture)
    {
        var correction = exam.Corrections?[capture.Eye] ?? Correction.None;
        var diameter = PupilSizes.Measure(exam, capture, correction);
        return new SizeView
        {
            Eye = ClinicWords.Eyes[capture.Eye],
            Light = capture.Light is { } light ? ClinicWords.Lights[light] : null,
            Fixation = capture.Fixation is { } fixation ? ClinicWords.Fixations[fixation] : null,
            Millimetres = diameter.Millimetres,
            UncertaintyMillimetres = diameter.ExpandedUncertaintyMillimetres,
            IsCalibrated = diameter.IsCalibrated,
            NasalMicrometres = capture.Nasal.Position.Value,
            TemporalMicrometres = capture.Temporal.Position.Value,
            NasalEdgeAtHome = capture.Manner == CaptureManner.NasalEdgeAtHome,
            DarkSeconds = capture.DarkMilliseconds / 1000.0,
            At = Shown.Time(capture.When.At),
            Sequence = capture.CompletedBy.Value,
            IsSuperseded = !Holds(exam, capture),
        };
    }

    /// <summary>Under a light that was said, the domain decides; without one nothing is claimed, and the latest stands.</summary>
    private static bool Holds(Exam exam, Capture capture) =>
        capture.Light is { } light
            ? PupilSizes.Of(exam, capture.Eye, light)?.Capture.CompletedBy == capture.CompletedBy
            : exam.Captures.Last(c => c.Eye == capture.Eye && c.Light is null).CompletedBy == capture.CompletedBy;
}
