using PupilBridge.Clinic.House;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Records;

/// <summary>Why a clinician should see a patient before drops, in words that never diagnose.</summary>
internal static class BeforeDropsWords
{
    /// <summary>The reasons; empty for none.</summary>
    public static IReadOnlyList<string> Of(IClinicHouse house, Exam exam) => [];
}
