using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Records;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.Outgoing;

/// <summary>Exams page by page as they may leave the house. No page holds more than its exams, however long the exam log is.</summary>
internal static class OutgoingPages
{
    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">The search asks for something that is none, or a record's text is damaged.</exception>
    public static OutgoingPage Of(IClinicHouse house, OutgoingSearch search)
    {
        if (search.Limit is < 1 or > OutgoingSearch.MaxLimit)
        {
            throw new EntryProblemException(
                ClinicText.Records.Get("Outgoing.Limit", OutgoingSearch.MaxLimit, search.Limit)
            );
        }

        var (exams, next) = ExamSearching.Find(
            house,
            new ExamSearch
            {
                OpenedFrom = search.OpenedFrom,
                OpenedBefore = search.OpenedBefore,
                After = search.After,
                Limit = search.Limit,
            }
        );
        var records = exams.Select(exam => OutgoingRecords.Of(house, exam, version: null)).OfType<OutgoingRecord>();
        List<OutgoingRecord> made = [.. records];
        return new OutgoingPage(made, exams.Count - made.Count, next);
    }
}
