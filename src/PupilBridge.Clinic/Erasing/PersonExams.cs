using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Erasing;

/// <summary>All exams of a person, whatever their status, as they are now.</summary>
internal static class PersonExams
{
    private const int PageLimit = 200;

    /// <summary>The exams of the person behind a number.</summary>
    /// <exception cref="ExamLog.ExamLogBrokenException">The exam log cannot be read now.</exception>
    public static IReadOnlyList<Exam> Of(IClinicHouse house, PatientId number)
    {
        var numbers = house.Book.Mergings.NumbersOf(number);
        SortedDictionary<ExamId, Exam> found = [];
        string? after = null;
        do
        {
            var page = ExamListing.Of(
                house,
                new ExamListRequest
                {
                    Patient = number.Value,
                    Limit = PageLimit,
                    After = after,
                }
            );
            foreach (var summary in page.Exams)
            {
                // The list may be a moment behind: whose exam it is now is what the journal says.
                if (
                    house.FindExam(new ExamId(summary.Exam)) is { Patient: { } patient } exam
                    && numbers.Contains(patient)
                )
                {
                    found[exam.Id] = exam;
                }
            }

            after = page.Next;
        } while (after is not null);

        return [.. found.Values];
    }
}
