using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Merging;

/// <summary>A number that is merged into another and is given all the same, at the lane or on a page: the other one is taken, and told.</summary>
internal static class GoneNumbers
{
    /// <summary>Puts the number that goes on in the place of one that is merged into it.</summary>
    /// <returns>What the person should know; null if nothing was put.</returns>
    public static string? Follow(IClinicHouse house, ref PersonEntry entry)
    {
        if (PatientOf(entry) is not { } typed || house.Book.Mergings.Of(typed) is not { } merging)
        {
            return null;
        }

        entry = entry switch
        {
            ExamOpened opened => opened with { Patient = merging.Kept },
            ExamAttached attached => attached with { Patient = merging.Kept },
            ExamMoved moved => moved with { Patient = merging.Kept },
            _ => entry,
        };
        return entry is PatientEntered
            ? ClinicText.Desk.Get("Notice.EnteredOfMerged", typed, merging.Kept)
            : ClinicText.Desk.Get("Notice.Merged", typed, merging.Kept);
    }

    private static PatientId? PatientOf(PersonEntry entry) =>
        entry switch
        {
            ExamOpened opened => opened.Patient,
            ExamAttached attached => attached.Patient,
            ExamMoved moved => moved.Patient,
            PatientEntered entered => entered.Patient,
            _ => null,
        };
}
