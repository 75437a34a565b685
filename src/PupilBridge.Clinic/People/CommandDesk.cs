using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.People;

/// <summary>
/// The desk as commands on this machine may use it. Whoever may read the data folder may enter things under any initials, but not
/// put a name under a record: a signature needs a person who signed in.
/// </summary>
/// <param name="clinic">The desk itself.</param>
public class CommandDesk(IClinicDesk clinic) : IClinicDesk
{
    /// <inheritdoc/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken) =>
        EntryDuties.IsSignature(entry)
            ? Task.FromResult<EntryOutcome>(
                new EntryOutcome.Refused(ClinicText.People["Guard.NotHere"], ClinicText.People["Guard.NotHereNext"])
            )
            : clinic.EnterAsync(entry, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken) =>
        clinic.ListExamsAsync(request, cancellationToken);

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        clinic.ShowExamAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        clinic.ChartAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        clinic.AskedForAsync(exam, cancellationToken);

    /// <inheritdoc/>
    public Task<OutboxPage> ListOutboxAsync(
        string part,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => clinic.ListOutboxAsync(part, after, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        clinic.ListPatientsAsync(after, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => clinic.ListDueAsync(lastVisitBefore, after, limit, cancellationToken);

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        clinic.ListInstrumentsAsync(cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        clinic.WatchAsync(instrument, cancellationToken);
}
