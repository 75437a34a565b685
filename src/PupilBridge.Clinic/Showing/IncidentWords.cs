using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Showing;

/// <summary>What went wrong around an exam, in words for whoever reads it.</summary>
internal static class IncidentWords
{
    /// <summary>The words.</summary>
    public static string Of(IncidentKind kind) => ClinicText.Showing.Of("Incident", kind);
}
