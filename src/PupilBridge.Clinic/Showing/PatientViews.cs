using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Showing;

/// <summary>Patients as they are shown.</summary>
internal static class PatientViews
{
    /// <summary>A patient as the exam log has them.</summary>
    public static PatientView Of(StoredPatient stored) => Of(ExamDocuments.Read(stored));

    /// <summary>A patient as entered last.</summary>
    public static PatientView Of(PatientEntered entered)
    {
        var name = entered.Details?.Name;
        return new PatientView(
            entered.Patient.Value,
            string.IsNullOrEmpty(name) ? null : name,
            entered.Details?.BirthDate
        );
    }

    /// <summary>The patient of a number that an exam or a list names; with nothing but the number where nobody entered more.</summary>
    public static PatientView Of(IClinicHouse house, PatientId number) =>
        house.FindPatient(number) is { } entered ? Of(entered) : new PatientView(number.Value, null, null);
}
