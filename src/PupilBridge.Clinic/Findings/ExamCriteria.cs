using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Records;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Clinic.Findings;

/// <summary>An exam with all that the house knows beside it and that criteria read.</summary>
internal static class ExamCriteria
{
    /// <summary>How many earlier exams are looked at, as for what to see before drops.</summary>
    private const int MostEarlier = 20;

    /// <summary>The exam with earlier exams, site, age and limits.</summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">What lies in the exam log cannot be read now.</exception>
    public static CriteriaInput Of(IClinicHouse house, Exam exam) => Of(house, exam, Earlier(house, exam));

    /// <summary>The same, where the patient's earlier exams are at hand.</summary>
    /// <param name="house">The house.</param>
    /// <param name="exam">The exam.</param>
    /// <param name="earlier">Earlier exams, the latest first; only so many are looked at as anywhere.</param>
    public static CriteriaInput Of(IClinicHouse house, Exam exam, IEnumerable<Exam> earlier) =>
        new()
        {
            Exam = exam,
            Earlier = [.. earlier.Take(MostEarlier)],
            SamePerson = exam.Patient is { } patient ? house.Book.Mergings.NumbersOf(patient) : [],
            AgeYears = AgeOf(house, exam),
            Site = house.Criteria.Site,
            Limits = CriteriaLimits.For(exam.Profile, house.Criteria.Limits),
        };

    /// <summary>The patient's age on the day of the exam, in whole years; null if it is not known, or impossible.</summary>
    public static int? AgeOf(IClinicHouse house, Exam exam) =>
        exam.Patient is { } patient
            ? PatientAge.At(
                PersonBehind.IdentityOf(house, patient).BirthDate,
                DateOnly.FromDateTime(exam.Opening.When.At.ToDateTimeOffset().UtcDateTime)
            )
            : null;

    private static IReadOnlyList<Exam> Earlier(IClinicHouse house, Exam exam) =>
        exam.Patient is { } patient
            ?
            [
                .. Histories
                    .Exams(house, patient, MostEarlier, exam.Opening.When.At)
                    .Where(other => other.Id != exam.Id),
            ]
            : [];
}
