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

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>
/// A house without disk, threads and lines: the real reducer over a journal in memory, and a real exam log that is written when the
/// test says so.
/// </summary>
internal sealed class TestHouse : IClinicHouse, IDisposable
{
    public Findings.CriteriaSettings Criteria { get; set; } = Findings.CriteriaSettings.Default;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("clinic-test-");
    private readonly LiveFeed<LiveChange> feed;
    private readonly Dictionary<ExamId, Exam> exams = [];
    private readonly HashSet<ExamId> unwritten = [];
    private readonly Dictionary<ExamId, Exam> runs = [];
    private readonly Dictionary<string, PatientEntered> patients = [];
    private readonly Dictionary<DateOnly, DayListEntered> dayLists = [];
    private readonly Dictionary<EntryId, JournalSequence> known = [];
    private readonly SortedDictionary<string, LiveInstrument> instruments = new(StringComparer.Ordinal);
    private readonly ExamLogStore log;

    public TestHouse(int backlog = 64)
    {
        feed = new LiveFeed<LiveChange>(backlog);
        log = ExamLogStore.Open(folder.FullName);
    }

    public bool IsLive { get; set; } = true;

    public ExamBook Book { get; private set; } = ExamBook.Empty;

    public string? Trouble { get; set; }

    public string? ExamsWaitFor { get; set; }

    public JournalPosition? Head { get; set; }

    public List<JournalEntry> Journal { get; } = [];

    /// <summary>Runs just before an entry is recorded: what came in between asking and recording.</summary>
    public Action? JustBeforeRecording { get; set; }

    public long Dropped => feed.Dropped;

    public int Viewers => feed.Listeners;

    /// <summary>Puts an entry at the end of the journal.</summary>
    public JournalSequence Add(JournalEntry entry)
    {
        Journal.Add(entry);
        var sequenced = new SequencedEntry(new JournalSequence(Journal.Count), entry);
        var (book, changes) = ExamReducer.Apply(Book, sequenced, FindSitting);
        Book = book;
        feed.Tell(() => new LiveChange.EntryRecorded(sequenced));
        foreach (var change in changes)
        {
            if (change is ExamChanged exam)
            {
                exams[exam.Exam.Id] = exam.Exam;
                unwritten.Add(exam.Exam.Id);
                feed.Tell(() => new LiveChange.ExamChanged(exam.Exam, exam.IsNew, exam.IsOver));
            }
            else if (change is BenchRunChanged run)
            {
                runs[run.Run.Id] = run.Run;
                feed.Tell(() => new LiveChange.RunChanged(run.Run, run.IsNew, run.IsOver));
            }
            else if (change is PatientChanged patient)
            {
                patients[patient.Patient.Patient.Value] = patient.Patient;
            }
        }

        if (entry is DayListEntered list)
        {
            dayLists[list.Date] = list;
        }

        return sequenced.Sequence;
    }

    public void Add(IEnumerable<JournalEntry> entries)
    {
        foreach (var entry in entries)
        {
            Add(entry);
        }
    }

    /// <summary>Brings the exam log up to the journal.</summary>
    public void WriteLog()
    {
        log.Apply(
            Journal.Count,
            new ExamLogChanges
            {
                Exams = [.. exams.Values.Select(Worker.Projection.ExamDocuments.Of)],
                Patients = [.. patients.Values.Select(Worker.Projection.ExamDocuments.Of)],
                Outbox = [.. exams.Values.SelectMany(Worker.Projection.OutboxDocuments.Of)],
                LookUps =
                [
                    .. dayLists.Values.Select(Worker.Projection.ExamDocuments.Of),
                    .. runs.Values.SelectMany(Worker.Projection.BenchDocuments.Of),
                ],
            }
        );
        unwritten.Clear();
    }

    public void Show(LiveInstrument instrument) =>
        feed.Tell(() =>
        {
            instruments[instrument.Serial.Value] = instrument;
            return new LiveChange.InstrumentChanged(instrument);
        });

    /// <summary>The instrument has not been met since the service started.</summary>
    public void Forget(string serial) => feed.Tell(() => instruments.Remove(serial) ? null : null);

    public LiveSnapshot Look() => new([], [.. instruments.Values]);

    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => feed.Listen(Look);

    public Exam? FindSitting(ExamId id) => exams.GetValueOrDefault(id) ?? runs.GetValueOrDefault(id);

    public Exam ReadExam(StoredExam stored) => FindSitting(ExamDocuments.IdOf(stored)) ?? ExamDocuments.Read(stored);

    public IReadOnlySet<ExamId> ExamsAheadOfLog() =>
        new HashSet<ExamId>([.. exams.Values.Where(exam => exam.TakesEvents).Select(exam => exam.Id), .. unwritten]);

    public PatientEntered? FindPatient(PatientId id) => patients.GetValueOrDefault(id.Value);

    public DayListEntered? FindDayList(DateOnly day) => dayLists.GetValueOrDefault(day);

    public SequencedEntry? ReadEntry(JournalSequence sequence) =>
        sequence.Value >= 1 && sequence.Value <= Journal.Count
            ? new SequencedEntry(sequence, Journal[(int)sequence.Value - 1])
            : null;

    public T ReadLog<T>(Func<ExamLogStore, T> read) => read(log);

    public bool IsKnown(EntryId id) => known.ContainsKey(id);

    public Task<Receipt> RecordAsync(PersonEntry entry, CancellationToken cancellation)
    {
        if (known.TryGetValue(entry.Id, out var first))
        {
            return Task.FromResult(new Receipt(first, true));
        }

        JustBeforeRecording?.Invoke();
        var place = Add(entry);
        known[entry.Id] = place;
        return Task.FromResult(new Receipt(place, false));
    }

    public Task AppliedAsync(JournalSequence sequence, CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>What an instrument answers when it is asked to switch itself off.</summary>
    public SwitchOffEnding SwitchOffEnding { get; set; } = new(SwitchOffResult.Done, "");

    public Task<SwitchOffEnding> SwitchOffAsync(SerialNumber serial, PersonId who, CancellationToken cancellation) =>
        Task.FromResult(SwitchOffEnding);

    public void Dispose()
    {
        log.Dispose();
        folder.Delete(recursive: true);
    }
}
