using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>Guards against one number for two persons: what is entered of a patient beside what is known.</summary>
internal static class PatientEntering
{
    /// <summary>What is in the way; null if nothing is.</summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">What is known cannot be read now.</exception>
    public static EntryObstacle? Obstacle(IClinicHouse house, PatientEntry given, PatientEntered entry)
    {
        var known = Identity.Of(house.FindPatient(entry.Patient));
        var entered = Identity.Of(entry);
        return given.IsCorrection || !Identity.Differs(known, entered)
            ? null
            : new EntryObstacle(
                ClinicText.Desk.Get("Patient.KnownOther", entry.Patient, known, entered),
                ClinicText.Desk["Patient.KnownOtherNext"]
            );
    }

    /// <summary>The entry with what was left empty as it is known; a correction stays as given.</summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">What is known cannot be read now.</exception>
    public static PatientEntered Whole(IClinicHouse house, PatientEntry given, PatientEntered entry)
    {
        if (given.IsCorrection || house.FindPatient(entry.Patient) is not { } known)
        {
            return entry;
        }

        var whole = Identity.Of(entry).Or(Identity.Of(known));
        return entry with
        {
            Details = new PatientDetails { Name = whole.Name ?? "", BirthDate = whole.BirthDate },
        };
    }
}
