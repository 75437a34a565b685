using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;

namespace PupilBridge.Clinic.Records;

/// <summary>Finds patients by the beginning of their number or of a word of their name.</summary>
internal static class PatientSearching
{
    /// <summary>The most patients that one page looks at; the next one goes on behind them.</summary>
    private const int MostLookedAt = 5 * ExamQuery.MaxLimit;

    /// <summary>One page, by number.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The limit is none.</exception>
    public static PatientList Of(IClinicHouse house, string? text, string? after, int limit)
    {
        var wanted = text?.Trim() ?? "";
        if (wanted.Length == 0)
        {
            var page = house.ReadLog(log => log.ListPatients(after, limit));
            return new PatientList([.. page.Items.Select(PatientViews.Of)], page.Next);
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(limit, ExamQuery.MaxLimit);
        var found = new List<PatientView>();
        var place = after;
        for (var lookedAt = 0; lookedAt < MostLookedAt; )
        {
            var page = house.ReadLog(log => log.ListPatients(place, ExamQuery.MaxLimit));
            foreach (var patient in page.Items.Select(PatientViews.Of).Where(patient => Fits(patient, wanted)))
            {
                found.Add(patient);
                if (found.Count == limit)
                {
                    return new PatientList(found, patient.Patient);
                }
            }

            lookedAt += page.Items.Count;
            place = page.Next;
            if (place is null)
            {
                break;
            }
        }

        return new PatientList(found, place);
    }

    private static bool Fits(PatientView patient, string wanted) =>
        patient.Patient.StartsWith(wanted, StringComparison.OrdinalIgnoreCase)
        || (patient.Name is { } name && BeginsWord(name, wanted));

    private static bool BeginsWord(string name, string wanted)
    {
        for (var at = 0; at >= 0; at = name.IndexOf(wanted, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if (
                string.Compare(name, at, wanted, 0, wanted.Length, StringComparison.OrdinalIgnoreCase) == 0
                && (at == 0 || !char.IsLetterOrDigit(name[at - 1]))
            )
            {
                return true;
            }

            if (at + 1 >= name.Length)
            {
                return false;
            }
        }

        return false;
    }
}
