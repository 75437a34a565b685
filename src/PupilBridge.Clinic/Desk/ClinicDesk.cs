using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Erasing;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Live;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Desk;

/// <summary>The desk of a house. What cannot be shown or done ends in an <see cref="EntryProblemException"/> with words for a person.</summary>
/// <param name="house">The house.</param>
/// <param name="news">How the sending to other systems goes; null where nothing is sent.</param>
public sealed class ClinicDesk(IClinicHouse house, SendingNews? news = null) : IClinicDesk
{
    private readonly EntryDesk entries = new(house);

    /// <inheritdoc/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return Task.Run(() => entries.EnterAsync(entry, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Answers.FromAsync(() => ExamListing.Of(house, request), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(exam, found => ExamViews.Of(house, found), cancellationToken);

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(
            exam,
            found =>
            {
                // Asked for by the chart text and by the findings, and looked up once.
                var criteria = new Lazy<CriteriaInput>(() => ExamCriteria.Of(house, found));
                return ExamSummaries.Chart(found, () => criteria.Value) with
                {
                    Findings = FindingViews.Of(found, () => criteria.Value),
                };
            },
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(exam, found => AskedForViews.Of(house, found), cancellationToken);

    /// <inheritdoc/>
    public Task<OutboxPage> ListOutboxAsync(
        string part,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) => Answers.FromAsync(() => OutboxListing.Of(house, news, part, after, limit), cancellationToken);

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        Answers.FromAsync(
            () =>
            {
                var page = house.ReadLog(log => log.ListPatients(after, limit));
                return new PatientList([.. page.Items.Select(stored => PatientViews.Of(house, stored))], page.Next);
            },
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) =>
        Answers.FromAsync(
            () =>
                house.ExamsWaitFor is { } wait
                    ? throw new EntryProblemException(wait)
                    : DueListing.Of(house, lastVisitBefore, after, limit),
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        Answers.FromAsync(() => Showing.InstrumentViews.List(house), cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        new LaneWatch(house, instrument).RunAsync(cancellationToken);

    private Task<T?> AboutAsync<T>(long exam, Func<Exam, T> show, CancellationToken cancellation)
        where T : class =>
        Answers.FromAsync(
            () =>
                house.ExamsWaitFor is { } wait ? throw new EntryProblemException(wait)
                : exam > 0 && house.FindExam(new ExamId(exam)) is { } found ? show(found)
                : null,
            cancellation
        );
}
