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

namespace PupilBridge.Voyage.World;

/// <content>The house in which the product's desk for people's entries stands.</content>
internal sealed partial class SteppedService : IClinicHouse
{
    private readonly List<(long Sequence, TaskCompletionSource Done)> waiting = [];

    public bool IsLive => true;

    public ExamBook Book => Tracker.Book;

    public CriteriaSettings Criteria => CriteriaSettings.Default;

    public string? Trouble => Keeper.Trouble;

    public string? ExamsWaitFor => null;

    public JournalPosition? Head => Keeper.Durable;

    public LiveSnapshot Look() => new([], []);

    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => throw new NotSupportedException();

    public Exam? FindSitting(ExamId id) => Tracker.Find(id);

    public Exam ReadExam(StoredExam stored) => Tracker.Read(stored);

    public PatientEntered? FindPatient(PatientId id) =>
        Tracker.FindUnwritten(id)
        ?? ReadLog(store => store.FindPatient(id.Value) is { } found ? ExamDocuments.Read(found) : null);

    public DayListEntered? FindDayList(DateOnly day) =>
        Tracker.FindUnwritten(day) ?? ReadLog(store => ExamDocuments.FindDayList(store, day));

    public SequencedEntry? ReadEntry(JournalSequence sequence) =>
        JournalReader.Find(disk, Folder, sequence.Value, Keeper.Durable.Sequence) is { } record
            ? entries.Of(record)
            : null;

    public T ReadLog<T>(Func<ExamLogStore, T> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return read(log.Store);
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
            if (recorded.Remove(entry.Id))
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
            var done = new TaskCompletionSource();
            waiting.Add((sequence.Value, done));
            return done.Task;
        }
    }

    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        throw new NotSupportedException();

    /// <summary>Whether an entry that was outstanding is on disk now.</summary>
    public bool IsRecorded(EntryId id) => recorded.Contains(id);

    private void LetGo()
    {
        lock (waiting)
        {
            foreach (var (_, done) in waiting.Where(w => w.Sequence <= Applied).ToList())
                done.TrySetResult();
            waiting.RemoveAll(w => w.Sequence <= Applied);
        }
    }
}
