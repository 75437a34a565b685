using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
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

namespace PupilBridge.Voyage.World;

/// <content>The house in which the product's desk for people's entries stands.</content>
internal sealed partial class SteppedService : IClinicHouse
{
    private readonly List<(long Sequence, TaskCompletionSource Done)> waiting = [];
    private readonly List<TaskCompletionSource> waitingForRenewal = [];
    private bool hasEnded;

    public bool IsLive => true;

    public ExamBook Book => Tracker.Book;

    public CriteriaSettings Criteria => CriteriaSettings.Default;

    public string? Trouble => Keeper.Trouble;

    public string? ExamsWaitFor => follower.IsWaiting ? "The exams are being made anew." : null;

    public SubjectKeyStore? SubjectKeys => keys;

    public JournalPosition? Head => Keeper.Durable;

    public LiveSnapshot Look() => new([], []);

    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => throw new NotSupportedException();

    public Exam? FindSitting(ExamId id) => Tracker.Find(id);

    public Exam ReadExam(StoredExam stored) => Tracker.Read(stored);

    public IReadOnlySet<ExamId> ExamsAheadOfLog() => Tracker.AheadOfLog();

    public PatientEntered? FindPatient(PatientId id) =>
        Tracker.FindUnwritten(id) ?? ReadLog(store => HousePatients.Find(store, id));

    public DayListEntered? FindDayList(DateOnly day) =>
        Tracker.FindUnwritten(day) ?? ReadLog(store => ExamDocuments.FindDayList(store, day));

    public SequencedEntry? ReadEntry(JournalSequence sequence) =>
        JournalReader.Find(disk, Folder, sequence.Value, Keeper.Durable.Sequence) is { } record
            ? entries.Of(record)
            : null;

    public T ReadLog<T>(Func<ExamLogStore, T> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return examLog.Read(read);
    }

    public IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before) =>
        before.Value <= 1 ? [] : entries.Of(RecordsFrom(1)).TakeWhile(entry => entry.Sequence < before);

    /// <summary>Has what changed written at once, and says so where that cannot be; the product tries for a while before.</summary>
    public Task WrittenAsync(CancellationToken cancellation)
    {
        examLog.WriteAll();
        return examLog.LastApplied >= Book.LastApplied.Value
            ? Task.CompletedTask
            : Task.FromException(
                new ExamLogBrokenException(ExamLogTrouble.Damaged, log.Folder, "The exam log is being made anew.")
            );
    }

    public Task RenewedAsync(CancellationToken cancellation)
    {
        lock (waiting)
        {
            if (IsRenewed)
                return examLog.Renewed;
            var done = new TaskCompletionSource();
            waitingForRenewal.Add(done);
            return done.Task;
        }
    }

    public bool IsKnown(EntryId id) => Keeper.Knows(id);

    /// <summary>
    /// Gives the entry to the product's keeper and takes a turn of the journal. If that made it durable, the keeper's own receipt is
    /// waited for (it comes over another thread, but nothing else runs meanwhile); else it stays outstanding.
    /// </summary>
    public Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var receipt = Keeper.RecordAsync(entry, cancellation);
        if (!receipt.IsCompleted)
        {
            Pump();
            if (recorded.Contains(entry.Id))
                ((IAsyncResult)receipt).AsyncWaitHandle.WaitOne();
        }

        return receipt;
    }

    public Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation)
    {
        lock (waiting)
        {
            if (Applied >= sequence.Value)
                return Task.CompletedTask;
            if (hasEnded)
                return Task.FromCanceled(new CancellationToken(canceled: true));
            var done = new TaskCompletionSource();
            waiting.Add((sequence.Value, done));
            return done.Task;
        }
    }

    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        throw new NotSupportedException();

    /// <summary>Whether an entry that was outstanding is on disk now.</summary>
    public bool IsRecorded(EntryId id) => recorded.Contains(id);

    /// <summary>Whether everything that is on disk has been applied to the exams.</summary>
    public bool IsCaughtUp => Applied >= Keeper.Durable.Sequence;

    private void LetGo()
    {
        lock (waiting)
        {
            foreach (var (_, done) in waiting.Where(w => w.Sequence <= Applied).ToList())
                done.TrySetResult();
            waiting.RemoveAll(w => w.Sequence <= Applied);
            if (hasEnded)
            {
                waiting.ForEach(w => w.Done.TrySetCanceled(CancellationToken.None));
                waiting.Clear();
            }

            if (!IsRenewed)
                return;
            // Whoever waited hears of it here and not on a thread of its own.
            foreach (var done in waitingForRenewal)
            {
                if (examLog.Renewed.IsCompletedSuccessfully)
                    done.TrySetResult();
                else
                    done.TrySetCanceled();
            }

            waitingForRenewal.Clear();
        }
    }
}
