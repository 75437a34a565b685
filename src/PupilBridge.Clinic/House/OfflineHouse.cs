using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Offline;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.House;

/// <summary>
/// The house of a data folder without a running service. Questions are answered from the files, and the journal is left as it is; the
/// first entry opens a bridge of its own, without ports, and the journal then says that the program was started.
/// </summary>
/// <remarks>Safe for several threads, one after the other.</remarks>
public sealed class OfflineHouse : IClinicHouse, IAsyncDisposable
{
    private readonly BridgeParts parts;
    private readonly Lock gate = new();
    private OfflineFolder? folder;
    private Bridge? bridge;

    private OfflineHouse(BridgeParts parts, OfflineFolder folder, CriteriaSettings criteria, BenchSettings bench)
    {
        Bench = bench;
        this.parts = parts;
        this.folder = folder;
        Criteria = criteria;
    }

    /// <inheritdoc/>
    public CriteriaSettings Criteria { get; }

    /// <inheritdoc/>
    public BenchSettings Bench { get; }

    /// <inheritdoc/>
    public bool IsLive => false;

    /// <inheritdoc/>
    public ExamBook Book => Within(open => open.Exams.Book, own => own.Exams.Book);

    /// <inheritdoc/>
    public string? Trouble => bridge?.Keeper.Trouble;

    /// <inheritdoc/>
    public string? ExamsWaitFor => bridge?.ExamsWaitFor;

    /// <inheritdoc/>
    public JournalPosition? Head => bridge?.Keeper.Durable;

    /// <summary>Opens a data folder that nobody else has open.</summary>
    /// <param name="parts">As the service would be made of; its ports are left alone.</param>
    /// <param name="criteria">What the clinic set for the criteria; null for nothing.</param>
    /// <param name="bench">What the clinic set for the service bench; null for nothing.</param>
    /// <exception cref="JournalLockedException">A service, or another command, has it open.</exception>
    /// <exception cref="JournalFormatException">A newer version of the program wrote the journal.</exception>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be used, and cannot be made anew either.</exception>
    public static OfflineHouse Open(BridgeParts parts, CriteriaSettings? criteria = null, BenchSettings? bench = null)
    {
        ArgumentNullException.ThrowIfNull(parts);
        return new OfflineHouse(
            parts,
            OfflineFolder.Open(parts),
            criteria ?? CriteriaSettings.Default,
            bench ?? BenchSettings.Default
        );
    }

    /// <inheritdoc/>
    public LiveSnapshot Look() => new([], []);

    /// <inheritdoc/>
    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() =>
        new LiveFeed<LiveChange>(backlog: 1).Listen(Look);

    /// <inheritdoc/>
    public Exam? FindSitting(ExamId id) => Within(open => open.Exams.Find(id), own => own.Exams.Find(id));

    /// <inheritdoc/>
    public Exam ReadExam(StoredExam stored) => Within(open => open.Exams.Read(stored), own => own.Exams.Read(stored));

    /// <inheritdoc/>
    public IReadOnlySet<ExamId> ExamsAheadOfLog() =>
        Within(open => open.Exams.AheadOfLog(), own => own.Exams.AheadOfLog());

    /// <inheritdoc/>
    public PatientEntered? FindPatient(PatientId id) =>
        Within(
            open => HousePatients.Find(open.Log, id),
            own => own.Exams.FindUnwritten(id) ?? own.ExamLog.Read(log => HousePatients.Find(log, id))
        );

    /// <inheritdoc/>
    public DayListEntered? FindDayList(DateOnly day) =>
        Within(
            open => ExamDocuments.FindDayList(open.Log, day),
            own => own.Exams.FindUnwritten(day) ?? own.ExamLog.Read(log => ExamDocuments.FindDayList(log, day))
        );

    /// <inheritdoc/>
    public SubjectKeyStore? SubjectKeys => Within(open => open.SubjectKeys, own => own.SubjectKeys);

    /// <inheritdoc/>
    public Task RenewedAsync(CancellationToken cancellation) =>
        bridge is { } own ? own.ExamLog.Renewed.WaitAsync(cancellation) : Task.CompletedTask;

    /// <inheritdoc/>
    public Task WrittenAsync(CancellationToken cancellation) =>
        bridge is { } own ? new BridgeHouse(own, isLive: false).WrittenAsync(cancellation) : Task.CompletedTask;

    /// <inheritdoc/>
    public IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before) =>
        Within(open => open.ReadEntriesBefore(before), own => own.ReadEntriesBefore(before));

    /// <inheritdoc/>
    public SequencedEntry? ReadEntry(JournalSequence sequence) =>
        Within(open => open.ReadEntry(sequence), own => own.ReadEntry(sequence));

    /// <inheritdoc/>
    public T ReadLog<T>(Func<ExamLogStore, T> read) => Within(open => read(open.Log), own => own.ExamLog.Read(read));

    /// <inheritdoc/>
    public bool IsKnown(EntryId id) => Within(open => open.Knows(id), own => own.Keeper.Knows(id));

    /// <inheritdoc/>
    public Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation) =>
        OwnBridge().Keeper.RecordAsync(entry, cancellation);

    /// <inheritdoc/>
    public Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation) =>
        bridge is { } own
            ? new BridgeHouse(own, isLive: false).AppliedAsync(sequence, cancellation)
            : Task.CompletedTask;

    /// <inheritdoc/>
    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        Task.FromResult(new SwitchOffEnding(SwitchOffResult.NotConnected, ClinicText.House.Get("House.NoService")));

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        folder?.Dispose();
        if (bridge is { } own)
        {
            await own.DisposeAsync().ConfigureAwait(false);
        }
    }

    private T Within<T>(Func<OfflineFolder, T> asFolder, Func<Bridge, T> asBridge)
    {
        lock (gate)
        {
            if (bridge is { } own)
            {
                return asBridge(own);
            }

            folder ??= OfflineFolder.Open(parts);
            return asFolder(folder);
        }
    }

    /// <summary>The bridge that records; the lock of the folder passes from reading to it.</summary>
    private Bridge OwnBridge()
    {
        lock (gate)
        {
            if (bridge is null)
            {
                folder?.Dispose();
                folder = null;
                bridge = Bridge.Open(parts with { Options = WithoutPorts(parts.Options), FindPorts = () => [] });
            }

            return bridge;
        }
    }

    /// <summary>The same settings with no port named: what is then looked for is answered with nothing.</summary>
    private static BridgeOptions WithoutPorts(BridgeOptions options) =>
        new()
        {
            DataFolder = options.DataFolder,
            Sealing = options.Sealing,
            HostIdFile = options.HostIdFile,
            ProfileFile = options.ProfileFile,
            WaitingPerSource = options.WaitingPerSource,
            ScreenBacklog = options.ScreenBacklog,
            DiskRetry = options.DiskRetry,
        };
}
