using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Findings;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.House;

/// <summary>
/// The house of a bridge in this process: of the running service, or of one that a command has opened for itself, without ports, on
/// a data folder that nobody else holds.
/// </summary>
/// <param name="bridge">The bridge; whoever opened it stops it.</param>
/// <param name="isLive">Whether it listens on lines.</param>
/// <param name="criteria">What the clinic set for the criteria; null for nothing.</param>
/// <param name="bench">What the clinic set for the service bench; null for nothing.</param>
public sealed class BridgeHouse(
    Bridge bridge,
    bool isLive,
    CriteriaSettings? criteria = null,
    BenchSettings? bench = null
) : IClinicHouse
{
    /// <inheritdoc/>
    public BenchSettings Bench { get; } = bench ?? BenchSettings.Default;

    /// <inheritdoc/>
    public CriteriaSettings Criteria { get; } = criteria ?? CriteriaSettings.Default;

    /// <inheritdoc/>
    public bool IsLive => isLive;

    /// <inheritdoc/>
    public ExamBook Book => bridge.Exams.Book;

    /// <inheritdoc/>
    public string? Trouble => bridge.Keeper.Trouble;

    /// <inheritdoc/>
    public string? ExamsWaitFor => bridge.ExamsWaitFor;

    /// <inheritdoc/>
    public JournalPosition? Head => bridge.Keeper.Durable;

    /// <inheritdoc/>
    public LiveSnapshot Look() => bridge.Board.Look();

    /// <inheritdoc/>
    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => bridge.Board.Watch();

    /// <inheritdoc/>
    public Exam? FindSitting(ExamId id) => bridge.Exams.Find(id);

    /// <inheritdoc/>
    public Exam ReadExam(StoredExam stored) => bridge.Exams.Read(stored);

    /// <inheritdoc/>
    public IReadOnlySet<ExamId> ExamsAheadOfLog() => bridge.Exams.AheadOfLog();

    /// <inheritdoc/>
    public PatientEntered? FindPatient(PatientId id) =>
        bridge.Exams.FindUnwritten(id) ?? bridge.ExamLog.Read(log => HousePatients.Find(log, id));

    /// <inheritdoc/>
    public DayListEntered? FindDayList(DateOnly day) =>
        bridge.Exams.FindUnwritten(day) ?? bridge.ExamLog.Read(log => ExamDocuments.FindDayList(log, day));

    /// <inheritdoc/>
    public SubjectKeyStore? SubjectKeys => bridge.SubjectKeys;

    /// <inheritdoc/>
    public Task RenewedAsync(CancellationToken cancellation) => bridge.ExamLog.Renewed.WaitAsync(cancellation);

    /// <inheritdoc/>
    public Task WrittenAsync(CancellationToken cancellation) =>
        bridge.ExamLog.WrittenAsync(Book.LastApplied.Value, cancellation);

    /// <inheritdoc/>
    public IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before) => bridge.ReadEntriesBefore(before);

    /// <inheritdoc/>
    public SequencedEntry? ReadEntry(JournalSequence sequence) => bridge.ReadEntry(sequence);

    /// <inheritdoc/>
    public T ReadLog<T>(Func<ExamLogStore, T> read) => bridge.ExamLog.Read(read);

    /// <inheritdoc/>
    public bool IsKnown(EntryId id) => bridge.Keeper.Knows(id);

    /// <inheritdoc/>
    public Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation) =>
        bridge.Keeper.RecordAsync(entry, cancellation);

    /// <inheritdoc/>
    public async Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation)
    {
        while (Book.LastApplied < sequence)
        {
            var (_, changes) = Watch();
            using (changes)
            {
                await ReadUntilAppliedAsync(changes, sequence, cancellation).ConfigureAwait(false);
            }
        }
    }

    /// <inheritdoc/>
    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        bridge.SwitchOffAsync(serial, who, cancellation);

    private async Task ReadUntilAppliedAsync(
        LiveSubscription<LiveChange> changes,
        JournalSequence sequence,
        CancellationToken cancellation
    )
    {
        if (Book.LastApplied >= sequence)
        {
            return;
        }

        try
        {
            await foreach (var _ in changes.ReadAllAsync(cancellation).ConfigureAwait(false))
            {
                if (Book.LastApplied >= sequence)
                {
                    return;
                }
            }
        }
        catch (ListenerTooSlowException)
        {
            // More went on than this could follow: look again.
        }
    }
}
