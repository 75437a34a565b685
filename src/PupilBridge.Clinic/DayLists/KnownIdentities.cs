using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The patients of a file beside what the clinic knows of them.</summary>
internal static class KnownIdentities
{
    /// <summary>Looks each patient of a file up, once.</summary>
    public static IReadOnlyList<ListedPatient> Of(IClinicHouse house, IReadOnlyList<DayListRow> rows) =>
        [
            .. rows.GroupBy(row => row.Patient, StringComparer.Ordinal)
                .Select(same =>
                {
                    var known = house.FindPatient(new PatientId(same.Key));
                    var listed = same.Select(row => new Identity(row.Name, row.BirthDate))
                        .Aggregate((all, one) => all.Or(one));
                    return new ListedPatient(same.Key, same.First().Line, listed, Identity.Of(known), known is null);
                }),
        ];

    /// <summary>What is wrong about them: numbers that the clinic knows as somebody else.</summary>
    public static IEnumerable<DayListFault> Faults(IEnumerable<ListedPatient> patients) =>
        patients
            .Where(patient => Identity.Differs(patient.Listed, patient.Known))
            .Select(patient => new DayListFault(
                patient.Line,
                DayListColumn.Patient,
                ClinicText.DayLists.Get("Fault.KnownOther", patient.Number, patient.Known, patient.Listed)
            ));
}

/// <summary>One patient of a file.</summary>
/// <param name="Number">The number.</param>
/// <param name="Line">The first line that names them.</param>
/// <param name="Listed">Who the file says it is.</param>
/// <param name="Known">Who the clinic knows it is.</param>
/// <param name="IsNew">Whether nobody entered the number before.</param>
internal sealed record ListedPatient(string Number, long Line, Identity Listed, Identity Known, bool IsNew)
{
    /// <summary>What is known once the file is taken.</summary>
    public Identity Together => Known.Or(Listed);

    /// <summary>Whether the file tells something that was not known.</summary>
    public bool IsNews => IsNew || Together != Known;
}
