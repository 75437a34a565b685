using System.Runtime.CompilerServices;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>The desks' side of the sample house.</summary>
internal sealed partial class SampleHouse : IClinicDesk, ILaneDesk, IRecordDesk
{
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken)
    {
        Entered.Add(entry);
        return Task.FromResult(Outcome(entry));
    }

    /// <summary>What is on its way to other systems.</summary>
    public OutboxPage Outbox { get; set; } = new(null, [], null);

    /// <summary>Which parts of it were asked for, and from where.</summary>
    public List<(string Part, string? After)> OutboxAsked { get; } = [];

    public Task<OutboxPage> ListOutboxAsync(string part, string? after, int limit, CancellationToken cancellationToken)
    {
        OutboxAsked.Add((part, after));
        return Task.FromResult(Outbox);
    }

    /// <summary>Whose last visit lies long ago.</summary>
    public DueList Due { get; set; } = new([], null);

    /// <summary>How it was asked who is due.</summary>
    public List<(DateTimeOffset Before, string? After)> DueAsked { get; } = [];

    public Task<DueList> ListDueAsync(
        DateTimeOffset lastVisitBefore,
        string? after,
        int limit,
        CancellationToken cancellationToken
    )
    {
        DueAsked.Add((lastVisitBefore, after));
        return Task.FromResult(Due);
    }

    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        Task.FromResult(new InstrumentList(true, Instruments, Lines, Trouble));

    public Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken) =>
        Task.FromResult(
            Instruments.FirstOrDefault(one => one.Instrument == instrument) is { } found ? SampleBoards.Of(found) : null
        );

    public Task<ExamPage> SearchExamsAsync(ExamSearch search, CancellationToken cancellationToken)
    {
        Searches.Add(search);
        return Task.FromResult(new ExamPage(Found, Next));
    }

    public Task<ExamPage> ListForReviewAsync(string? after, int limit, CancellationToken cancellationToken) =>
        Task.FromResult(new ExamPage(Found, Next));

    public Task<RecordView?> ShowRecordAsync(long exam, CancellationToken cancellationToken) =>
        Obstacle is { } obstacle
            ? throw new EntryProblemException(obstacle)
            : Task.FromResult(Records.GetValueOrDefault(exam));

    public Task<OutgoingRecord?> ShowOutgoingAsync(long exam, int? version, CancellationToken cancellationToken) =>
        throw new NotSupportedException("No page sends a record out of the house.");

    public Task<OutgoingPage> ListOutgoingAsync(OutgoingSearch search, CancellationToken cancellationToken) =>
        throw new NotSupportedException("No page writes tables.");

    public Task<RawReadingView?> ShowRawAsync(long sequence, CancellationToken cancellationToken) =>
        Task.FromResult<RawReadingView?>(
            sequence == 404
                ? null
                : new RawReadingView(
                    sequence,
                    "scale-at-rest",
                    SampleExams.Morning,
                    "The scale of OD (right) came to rest at 2000 µm.",
                    "EV,8F3A11C02B77D4E9,7,27011,REST,R,2000*799B185B",
                    [new("eye", "OD"), new("position", "2000 µm"), new("tick", "27011 ms")]
                )
        );

    public Task<PatientList> FindPatientsAsync(
        string text,
        string? after,
        int limit,
        CancellationToken cancellationToken
    ) =>
        Task.FromResult(
            new PatientList(
                [
                    .. Patients.Values.Where(patient =>
                        patient.Patient.StartsWith(text, StringComparison.OrdinalIgnoreCase)
                        || (patient.Name ?? "").Contains(text, StringComparison.OrdinalIgnoreCase)
                    ),
                ],
                Next
            )
        );

    public Task<PatientView?> ShowPatientAsync(string patient, CancellationToken cancellationToken) =>
        Task.FromResult(Patients.GetValueOrDefault(patient));

    public Task<PatientHistory> HistoryAsync(string patient, int limit, CancellationToken cancellationToken) =>
        Task.FromResult(History(Patients[patient]));

    public Task<DayListView> DayListAsync(DateOnly day, CancellationToken cancellationToken) =>
        Task.FromResult(
            new DayListView(
                day,
                [
                    .. Patients.Values.Select(
                        (patient, i) =>
                            new DayListItemView(
                                patient,
                                i == 2 ? null : $"09:{15 * i:00}",
                                i == 0 ? SampleExams.Summary(2001) : null
                            )
                    ),
                ]
            )
        );

    public async Task<DayListImport> ImportDayListAsync(
        Stream csv,
        string fileName,
        DateOnly day,
        Caller by,
        CancellationToken cancellationToken
    )
    {
        using var reader = new StreamReader(csv);
        ImportedText = await reader.ReadToEndAsync(cancellationToken);
        return Import;
    }

    public async IAsyncEnumerable<LaneBoard> WatchLaneAsync(
        string instrument,
        [EnumeratorCancellation] CancellationToken cancellationToken
    )
    {
        if (await LookAtLaneAsync(instrument, cancellationToken) is { } board)
        {
            yield return board;
        }
    }

    public Task<ExamList> ListExamsAsync(ExamListRequest request, CancellationToken cancellationToken) =>
        throw new NotSupportedException("No page lists exams this way.");

    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        Task.FromResult(Records.GetValueOrDefault(exam)?.Exam);

    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        Task.FromResult(Records.GetValueOrDefault(exam)?.Exam.Chart);

    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        Task.FromResult(Records.GetValueOrDefault(exam)?.Exam.AskedFor);

    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        FindPatientsAsync("", after, limit, cancellationToken);

    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        throw new NotSupportedException("No page watches this way.");

    public Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken) =>
        Task.FromResult(new SwitchOffOutcome(true, "It switched itself off."));
}
