using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Live;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Desk;

/// <summary>The desk of a house. What cannot be shown or done ends in an <see cref="EntryProblemException"/> with words for a person.</summary>
/// <param name="house">The house.</param>
public sealed class ClinicDesk(IClinicHouse house) : IClinicDesk
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
        return AnswerAsync(() => ExamListing.Of(house, request), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ExamView?> ShowExamAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(exam, found => ExamViews.Of(house, found), cancellationToken);

    /// <inheritdoc/>
    public Task<ChartView?> ChartAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(exam, ExamSummaries.Chart, cancellationToken);

    /// <inheritdoc/>
    public Task<AskedForView?> AskedForAsync(long exam, CancellationToken cancellationToken) =>
        AboutAsync(exam, found => AskedForViews.Of(house, found), cancellationToken);

    /// <inheritdoc/>
    public Task<PatientList> ListPatientsAsync(string? after, int limit, CancellationToken cancellationToken) =>
        AnswerAsync(
            () =>
            {
                var page = house.ReadLog(log => log.ListPatients(after, limit));
                return new PatientList([.. page.Items.Select(Of)], page.Next);
            },
            cancellationToken
        );

    /// <inheritdoc/>
    public Task<InstrumentList> ListInstrumentsAsync(CancellationToken cancellationToken) =>
        AnswerAsync(() => Showing.InstrumentViews.List(house), cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneView> WatchAsync(string? instrument, CancellationToken cancellationToken) =>
        new LaneWatch(house, instrument).RunAsync(cancellationToken);

    private Task<T?> AboutAsync<T>(long exam, Func<Exam, T> show, CancellationToken cancellation)
        where T : class =>
        AnswerAsync(
            () =>
                house.ExamsWaitFor is { } wait ? throw new EntryProblemException(wait)
                : exam > 0 && house.FindExam(new ExamId(exam)) is { } found ? show(found)
                : null,
            cancellation
        );

    /// <summary>Reads on a thread of the pool: the exam log may be on a slow disk, and a caller may be a screen.</summary>
    private static Task<T> AnswerAsync<T>(Func<T> answer, CancellationToken cancellation) =>
        Task.Run(
            () =>
            {
                try
                {
                    return answer();
                }
                catch (ExamLogBrokenException broken)
                {
                    throw new EntryProblemException(broken.Message, broken);
                }
                catch (ArgumentOutOfRangeException outside)
                {
                    throw new EntryProblemException(outside.Message, outside);
                }
            },
            cancellation
        );

    private static PatientView Of(StoredPatient stored)
    {
        var patient = ExamDocuments.Read(stored);
        var name = patient.Details?.Name;
        return new PatientView(stored.Id, string.IsNullOrEmpty(name) ? null : name, patient.Details?.BirthDate);
    }
}
