using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic;

/// <summary>Patients, exams, review and history, for reading; what is entered goes by <see cref="IClinicDesk.EnterAsync"/>.</summary>
public interface IRecordDesk : IOutgoingDesk
{
    /// <summary>Finds exams, the latest opened first, a page at a time and without looking at all of them.</summary>
    /// <param name="search">What to look for.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<ExamPage> SearchExamsAsync(ExamSearch search, CancellationToken cancellationToken);

    /// <summary>Exams that await review: those that want a clinician before drops first, then the oldest first.</summary>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most exams to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<ExamPage> ListForReviewAsync(string? after, int limit, CancellationToken cancellationToken);

    /// <summary>One exam as a clinician reviews it.</summary>
    /// <param name="exam">Its number.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such exam.</returns>
    Task<RecordView?> ShowRecordAsync(long exam, CancellationToken cancellationToken);

    /// <summary>One entry of the journal, raw and in words.</summary>
    /// <param name="sequence">Its place.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>Null if there is no such entry.</returns>
    Task<RawReadingView?> ShowRawAsync(long sequence, CancellationToken cancellationToken);

    /// <summary>Finds patients by the beginning of their number or of a word of their name.</summary>
    /// <param name="text">What was typed; empty for all.</param>
    /// <param name="after">Where the page before ended; null for the first page.</param>
    /// <param name="limit">The most patients to list, 1 to 500.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PatientList> FindPatientsAsync(string text, string? after, int limit, CancellationToken cancellationToken);

    /// <summary>The list of one day, with what became of each patient so far.</summary>
    /// <param name="day">The day, by the clinic's clock.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<DayListView> DayListAsync(DateOnly day, CancellationToken cancellationToken);

    /// <summary>Takes a day's list from a CSV file. All of it is taken, or nothing.</summary>
    /// <param name="csv">The file's content, UTF-8.</param>
    /// <param name="fileName">Its name, for messages and the journal.</param>
    /// <param name="day">The day for lines that name none.</param>
    /// <param name="by">Who does it.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<DayListImport> ImportDayListAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellationToken
    );
}
