using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Records;

/// <summary>What people did to an exam as a whole, in words.</summary>
internal static class CourseViews
{
    /// <summary>All of it, in order.</summary>
    public static IReadOnlyList<CourseView> Of(Exam exam) =>
        [
            .. exam.Course.Select(step => new CourseView(
                Words(step),
                step.Who.Value,
                Shown.Time(step.At),
                string.IsNullOrEmpty(step.Reason) ? null : step.Reason
            )),
        ];

    private static string Words(CourseRecord step) =>
        step.Kind switch
        {
            CourseKind.Opened => step.Patient is { } patient ? $"opened for {patient}" : "opened without a patient",
            CourseKind.Attached => $"attached to {step.Patient}",
            CourseKind.Moved => $"moved to {step.Patient}",
            CourseKind.Split => $"a part split off as exam {step.OtherExam}",
            CourseKind.SplitOff => $"split off exam {step.OtherExam}",
            CourseKind.MadeReady => "made ready for review",
            CourseKind.SetAside => "set aside",
            CourseKind.TakenBack => "an earlier step was taken back",
            CourseKind.Signed => "signed",
            CourseKind.AmendmentBegun => "began to amend",
            _ => Shown.Word(step.Kind).Replace('-', ' '),
        };
}
