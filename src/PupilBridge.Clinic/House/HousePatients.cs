using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.House;

/// <summary>Patients out of the exam log.</summary>
internal static class HousePatients
{
    /// <summary>What was entered last of a patient; null if nothing was.</summary>
    public static PatientEntered? Find(ExamLogStore log, PatientId id) =>
        log.FindPatient(id.Value) is { } stored ? ExamDocuments.Read(stored) : null;
}
