using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Lanes;

/// <summary>Why a clinician should see the patient before drops.</summary>
internal static class BeforeDropsWords
{
    /// <summary>The reasons in words.</summary>
    public static IReadOnlyList<string> Of(Exam exam) => [];
}
