using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
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
        step.Kind != CourseKind.Opened ? ClinicText.Records.Of("Course", step.Kind, step.Patient, step.OtherExam)
        : step.Patient is { } patient ? ClinicText.Records.Get("CourseOpenedFor", patient)
        : ClinicText.Records["CourseOpenedForNobody"];
}
