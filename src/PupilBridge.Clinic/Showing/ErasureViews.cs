using System.Globalization;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Showing;

/// <summary>Erasures as they are shown: in place of who the patient was.</summary>
internal static class ErasureViews
{
    /// <summary>The erasure of an exam's patient; null where there was none.</summary>
    public static ErasureView? Of(Exam exam) =>
        exam.Erasure is { } erasure
            ? new ErasureView(
                Shown.Time(erasure.At),
                erasure.Who.Value,
                erasure.OrderedBy,
                erasure.Reason,
                erasure.Sequence.Value,
                ClinicText.Records.Get(
                    "Erasure.Words",
                    Shown.Time(erasure.At).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    erasure.Who,
                    erasure.OrderedBy,
                    erasure.Reason
                )
            )
            : null;
}
