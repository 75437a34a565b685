using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Records;

/// <summary>Finds patients by the beginning of their number or of words of their name.</summary>
internal static class PatientSearching
{
    /// <summary>One page, by number.</summary>
    /// <exception cref="EntryProblemException">The place to go on from is none.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The limit is none.</exception>
    public static PatientList Of(IClinicHouse house, string? text, string? after, int limit)
    {
        try
        {
            var page = house.ReadLog(log => log.SearchPatients(text ?? "", after, limit));
            return new PatientList([.. page.Items.Select(stored => PatientViews.Of(house, stored))], page.Next);
        }
        catch (ArgumentException problem) when (problem is not ArgumentOutOfRangeException)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }
}
