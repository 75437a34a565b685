using PupilBridge.Clinic.DayLists;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Clinic.Records;

/// <summary>
/// The records of a house, for reading, and the day's list. What cannot be shown ends in an <see cref="EntryProblemException"/> with
/// words for a person.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class RecordDesk : IRecordDesk, IDisposable
{
    private readonly IClinicHouse house;
    private readonly TimeProvider time;
    private readonly DayListImporter importer;

    /// <summary>Stands in a house.</summary>
    /// <param name="house">The house.</param>
    /// <param name="time">The clinic's clock, with its time zone.</param>
    /// <param name="headings">By which words a day's list names its columns; null for plain English.</param>
    public RecordDesk(IClinicHouse house, TimeProvider time, DayListHeadings? headings = null)
    {
        this.house = house;
        this.time = time;
        importer = new DayListImporter(house, new EntryDesk(house), headings ?? DayListHeadings.Default, time);
    }

    /// <inheritdoc/>
    public Task<ExamPage> SearchExamsAsync(ExamSearch search, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(search);
        return ReadAsync(() => ExamSearching.Of(house, search), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ExamPage> ListForReviewAsync(string? after, int limit, CancellationToken cancellationToken) =>
        ReadAsync(() => ReviewList.Of(house, after, limit), cancellationToken);

    /// <inheritdoc/>
    public Task<RecordView?> ShowRecordAsync(long exam, CancellationToken cancellationToken) =>
        ReadAsync(
            () => exam > 0 && house.FindExam(new ExamId(exam)) is { } found ? RecordViews.Of(house, found) : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken) =>
        ReadAsync(
            () =>
                exam > 0 && house.FindExam(new ExamId(exam)) is { } found
                    ? OutgoingRecords.Of(house, found, version)
                    : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(search);
        return ReadAsync(() => OutgoingPages.Of(house, search), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<RawReadingView?> ShowRawAsync(long sequence, CancellationToken cancellationToken) =>
        Answers.FromAsync(
            () =>
                sequence > 0 && house.ReadEntry(new JournalSequence(sequence)) is { } entry
                    ? RawReadings.Of(entry)
                    : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<PatientList> FindPatientsAsync(
        string text,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => ReadAsync(() => PatientSearching.Of(house, text, after, limit), cancellationToken);

    /// <inheritdoc/>
    public Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken) =>
        ReadAsync(
            () =>
                Given.PatientOrErased(patient) is var number && SealedNumbers.IsErased(number)
                    ? PatientViews.Erased(house, number)
                : house.FindPatient(number) is { } known ? PatientViews.Of(house, known)
                : null,
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken) =>
        ReadAsync(() => Histories.Of(house, Given.PatientOrErased(patient), limit), cancellationToken);

    /// <inheritdoc/>
    public Task<DayListView> DayListAsync(DateOnly day, CancellationToken cancellationToken) =>
        ReadAsync(() => DayListViews.Of(house, day, time.LocalTimeZone), cancellationToken);

    /// <inheritdoc/>
    public Task<DayListImport> ImportDayListAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(csv);
        ArgumentNullException.ThrowIfNull(by);
        return Task.Run(() => importer.ImportAsync(csv, fileName, day, by, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public void Dispose() => importer.Dispose();

    /// <summary>Answers what depends on exams, which may not be there yet.</summary>
    private Task<T> ReadAsync<T>(Func<T> answer, CancellationToken cancellation) =>
        Answers.FromAsync(
            () => house.ExamsWaitFor is { } wait ? throw new EntryProblemException(wait) : answer(),
            cancellation
        );
}
