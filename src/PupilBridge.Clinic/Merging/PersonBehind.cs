using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Merging;

/// <summary>
/// The person behind a patient's number, by the mergings that stand now. Exams keep the number they were attached to; whoever gathers
/// what belongs together asks here.
/// </summary>
internal static class PersonBehind
{
    /// <summary>
    /// All numbers of the person whose exams are asked for, the one that goes on first; just what was given where nothing is merged, or
    /// where it is no number.
    /// </summary>
    /// <param name="house">The house.</param>
    /// <param name="given">The number; null for everybody's exams.</param>
    /// <returns>Empty for everybody's.</returns>
    public static IReadOnlyList<string> Numbers(IClinicHouse house, string? given) =>
        given is null ? []
        : ShortText.IsValid(given) ? [.. house.Book.Mergings.NumbersOf(new PatientId(given)).Select(one => one.Value)]
        : [given];

    /// <summary>The number that goes on; the number itself where it is merged into none.</summary>
    public static PatientId Surviving(IClinicHouse house, PatientId number) => house.Book.Mergings.Surviving(number);

    /// <summary>
    /// Who the person is: what is known under the number that goes on, and what is not known there as it is known under the others. All
    /// numbers of a person give the same.
    /// </summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">What is known cannot be read now.</exception>
    public static Identity IdentityOf(IClinicHouse house, PatientId number) =>
        house
            .Book.Mergings.NumbersOf(number)
            .Select(one => Identity.Of(house.FindPatient(one)))
            .Aggregate((all, one) => all.Or(one));
}
