using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Showing;

/// <summary>Patients as they are shown.</summary>
internal static class PatientViews
{
    /// <summary>A patient as the exam log has them.</summary>
    public static PatientView Of(IClinicHouse house, StoredPatient stored) => Of(house, ExamDocuments.Read(stored));

    /// <summary>A patient as entered last.</summary>
    public static PatientView Of(IClinicHouse house, PatientEntered entered) =>
        Of(house, entered.Patient, Identity.Of(entered));

    /// <summary>The patient of a number that an exam or a list names; with nothing but the number where nobody entered more.</summary>
    public static PatientView Of(IClinicHouse house, PatientId number) =>
        Of(house, number, Identity.Of(house.FindPatient(number)));

    /// <summary>
    /// The person behind a number, under that number: with what is known of the person under any number. Null where nothing is known.
    /// </summary>
    public static PatientView? Person(IClinicHouse house, PatientId number) =>
        house.Book.Mergings.NumbersOf(number).Any(one => house.FindPatient(one) is not null)
            ? Of(house, number, PersonBehind.IdentityOf(house, number))
            : null;

    /// <summary>The patient of an exam, under the number that it has now; null where it has none.</summary>
    public static PatientView? Of(IClinicHouse house, Exam exam) =>
        exam.Patient is { } number ? Of(house, number) with { Erasure = ErasureViews.Of(exam) } : null;

    /// <summary>What stands in the place of a patient who was erased; null where no exam bears that number.</summary>
    /// <exception cref="EntryProblemException">The exams cannot be read now.</exception>
    public static PatientView? Erased(IClinicHouse house, PatientId number) =>
        ExamListing.Of(house, new ExamListRequest { Patient = number.Value, Limit = 1 }).Exams is [var exam]
        && house.FindExam(new ExamId(exam.Exam)) is { } found
            ? Of(house, found)
            : null;

    /// <summary>The mergings that concern the person behind a number.</summary>
    public static IReadOnlyList<MergingView> Mergings(IClinicHouse house, PatientId number) =>
        [
            .. house
                .Book.Mergings.Into(PersonBehind.Surviving(house, number))
                .Select(merging => new MergingView(
                    merging.Kept.Value,
                    merging.Merged.Value,
                    merging.Who.Value,
                    Shown.Time(merging.At),
                    merging.Entry.ToString(),
                    merging.Sequence.Value
                )),
        ];

    private static PatientView Of(IClinicHouse house, PatientId number, Identity identity) =>
        new(number.Value, identity.Name, identity.BirthDate)
        {
            MergedInto = house.Book.Mergings.Of(number)?.Kept.Value,
        };
}
