using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.People;

/// <summary>What is seen through the guarded desk, and the switch of an instrument.</summary>
public sealed partial class GuardedDesk
{
    /// <inheritdoc/>
    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken) =>
        With(Roles.Records, () => clinic.ListExamsAsync(request, cancellationToken));

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        With(Roles.Records, () => clinic.ShowExamAsync(exam, cancellationToken));

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        With(Roles.Records, () => clinic.ChartAsync(exam, cancellationToken));

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        With(Roles.Lane, () => clinic.AskedForAsync(exam, cancellationToken));

    /// <inheritdoc/>
    public Task<OutboxPage> ListOutboxAsync(
        string part,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => With(Roles.Sending, () => clinic.ListOutboxAsync(part, after, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        With(Roles.Patients, () => clinic.ListPatientsAsync(after, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => With(Roles.Erasing, () => clinic.ListDueAsync(lastVisitBefore, after, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        With(Roles.Instruments, () => clinic.ListInstrumentsAsync(cancellationToken));

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        With(Roles.Lane, () => clinic.WatchAsync(instrument, cancellationToken));

    /// <inheritdoc/>
    public Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken) =>
        With(Roles.Lane, () => lanes.LookAtLaneAsync(instrument, cancellationToken));

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneBoard> WatchLaneAsync(string instrument, CancellationToken cancellationToken) =>
        With(Roles.Lane, () => lanes.WatchLaneAsync(instrument, cancellationToken));

    /// <inheritdoc/>
    public Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken) =>
        With(Roles.Instruments, () => lanes.SwitchOffAsync(instrument, caller.Who, cancellationToken));

    /// <inheritdoc/>
    public Task<ExamPage> SearchExamsAsync(ExamSearch search, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.SearchExamsAsync(search, cancellationToken));

    /// <inheritdoc/>
    public Task<ExamPage> ListForReviewAsync(string? after, int limit, CancellationToken cancellationToken) =>
        With(Roles.Sign, () => records.ListForReviewAsync(after, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<RecordView?> ShowRecordAsync(long exam, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.ShowRecordAsync(exam, cancellationToken));

    /// <inheritdoc/>
    public Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.ShowOutgoingAsync(exam, version, cancellationToken));

    /// <inheritdoc/>
    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.ListOutgoingAsync(search, cancellationToken));

    /// <inheritdoc/>
    public Task<RawReadingView?> ShowRawAsync(long sequence, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.ShowRawAsync(sequence, cancellationToken));

    /// <inheritdoc/>
    public Task<PatientList> FindPatientsAsync(
        string text,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => With(Roles.Patients, () => records.FindPatientsAsync(text, after, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken) =>
        With(Roles.Patients, () => records.ShowPatientAsync(patient, cancellationToken));

    /// <inheritdoc/>
    public Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken) =>
        With(Roles.Records, () => records.HistoryAsync(patient, limit, cancellationToken));

    /// <inheritdoc/>
    public Task<DayListView> DayListAsync(DateOnly day, CancellationToken cancellationToken) =>
        With(Roles.Patients, () => records.DayListAsync(day, cancellationToken));

    /// <inheritdoc/>
    public Task<DayListImport> ImportDayListAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellationToken
    ) => With(Roles.Patients, () => records.ImportDayListAsync(csv, fileName, day, caller, cancellationToken));
}
