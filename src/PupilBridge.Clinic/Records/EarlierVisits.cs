using PupilBridge.Clinic.House;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Clinic.Records;

/// <summary>A patient's earlier exams, as far as they say what is new today.</summary>
internal static class EarlierVisits
{
    /// <summary>How many exams are looked at; an anisocoria of long ago does not explain one of today.</summary>
    private const int MostLookedAt = 20;

    /// <summary>What of them counts; nothing for an exam without a patient.</summary>
    public static IReadOnlyList<EarlierVisit> Of(IClinicHouse house, Exam exam) =>
        exam.Patient is { } patient
            ?
            [
                .. Histories
                    .Exams(house, patient, MostLookedAt, exam.Opening.When.At)
                    .Where(other => other.Id != exam.Id)
                    .Select(other => EarlierVisit.Of(other))
                    .OfType<EarlierVisit>(),
            ]
            : [];
}
