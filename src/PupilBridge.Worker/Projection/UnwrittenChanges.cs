using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// What the journal's entries changed and the exam log does not hold yet: of each exam only its last state, so that its
/// size goes with the exams and not with the events. Safe for several threads.
/// </summary>
internal sealed class UnwrittenChanges
{
    private readonly Lock gate = new();
    private readonly Dictionary<ExamId, Exam> exams = [];
    private readonly Dictionary<string, PatientEntered> patients = new(StringComparer.Ordinal);
    private readonly Dictionary<string, InstrumentMet> instruments = new(StringComparer.Ordinal);
    private readonly Dictionary<string, PersonId> people = new(StringComparer.Ordinal);
    private readonly Dictionary<DateOnly, DayListEntered> dayLists = [];
    private readonly Dictionary<ExamId, Exam> runs = [];
    private ExamBook book = ExamBook.Empty;
    private long upTo;

    /// <summary>The last entry whose changes are in here, or are written.</summary>
    public long UpTo
    {
        get
        {
            lock (gate)
                return upTo;
        }
    }

    /// <summary>How many documents are to be written.</summary>
    public int DocumentCount
    {
        get
        {
            lock (gate)
                return exams.Count + patients.Count + instruments.Count + people.Count + dayLists.Count + runs.Count;
        }
    }

    /// <summary>Begins at a place where everything is written; whatever was not is forgotten.</summary>
    public void Begin(long sequence, ExamBook at)
    {
        lock (gate)
        {
            (upTo, book) = (sequence, at);
            exams.Clear();
            patients.Clear();
            instruments.Clear();
            people.Clear();
            dayLists.Clear();
            runs.Clear();
        }
    }

    /// <summary>Takes what one entry changed.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="changes">What it changed.</param>
    /// <param name="after">The book after it.</param>
    public void Add(SequencedEntry entry, IEnumerable<ExamChange> changes, ExamBook after)
    {
        lock (gate)
        {
            book = after;
            foreach (var change in changes)
            {
                if (change is ExamChanged exam)
                    exams[exam.Exam.Id] = exam.Exam;
                else if (change is BenchRunChanged run)
                    runs[run.Run.Id] = run.Run;
                else if (change is PatientChanged patient)
                    patients[patient.Patient.Patient.Value] = patient.Patient;
            }

            if (entry.Entry is InstrumentMet met)
                instruments[met.Serial.Value] = met;
            else if (entry.Entry is PersonEntry person)
                Add(person);
            upTo = Math.Max(upTo, entry.Sequence.Value);
        }
    }

    private void Add(PersonEntry entry)
    {
        // Whoever is refused at a sign-in may be anybody, and may have typed anything.
        // What the service sent by itself was no person's deed.
        if (entry is not (PersonSignedIn { Kind: SignInKind.Refused or SignInKind.LockedOut } or RecordSent))
            people[entry.Who.Value] = entry.Who;
        if (entry is PersonChanged { IsEnabled: true } changed)
            people[changed.Person.Value] = changed.Person;
        if (entry is DayListEntered list)
            dayLists[list.Date] = list;
    }

    /// <summary>Notes that the journal has come to a place without anything to write.</summary>
    public void Pass(long sequence)
    {
        lock (gate)
            upTo = Math.Max(upTo, sequence);
    }

    /// <summary>An exam or a bench run that is not written yet, or null.</summary>
    public Exam? Find(ExamId id)
    {
        lock (gate)
            return exams.GetValueOrDefault(id) ?? runs.GetValueOrDefault(id);
    }

    /// <summary>The exams that are not written yet, without bench runs.</summary>
    public IReadOnlyList<ExamId> Exams
    {
        get
        {
            lock (gate)
                return [.. exams.Keys];
        }
    }

    /// <summary>What was entered last of a patient and is not written yet, or null.</summary>
    public PatientEntered? Find(PatientId id)
    {
        lock (gate)
            return patients.GetValueOrDefault(id.Value);
    }

    /// <summary>The list of a day that is not written yet, or null.</summary>
    public DayListEntered? Find(DateOnly day)
    {
        lock (gate)
            return dayLists.GetValueOrDefault(day);
    }

    /// <summary>All that is to be written; it stays here until it is written.</summary>
    public Batch Take()
    {
        lock (gate)
            return new Batch(
                upTo,
                book,
                [.. exams.Values],
                [.. patients.Values],
                [.. instruments.Values],
                [.. people.Values],
                [.. dayLists.Values],
                [.. runs.Values]
            );
    }

    /// <summary>Takes out what was written, unless it has changed since.</summary>
    public void Written(Batch batch)
    {
        lock (gate)
        {
            foreach (var exam in batch.Exams)
                Drop(exams, exam.Id, exam);
            foreach (var patient in batch.Patients)
                Drop(patients, patient.Patient.Value, patient);
            foreach (var met in batch.Instruments)
                Drop(instruments, met.Serial.Value, met);
            foreach (var person in batch.People)
                people.Remove(person.Value);
            foreach (var list in batch.DayLists)
                Drop(dayLists, list.Date, list);
            foreach (var run in batch.Runs)
                Drop(runs, run.Id, run);
        }
    }

    private static void Drop<TKey, T>(Dictionary<TKey, T> kept, TKey key, T written)
        where TKey : notnull
        where T : class
    {
        if (kept.TryGetValue(key, out var now) && ReferenceEquals(now, written))
            kept.Remove(key);
    }

    /// <summary>The state of all changed things after one entry.</summary>
    public sealed record Batch(
        long UpTo,
        ExamBook Book,
        IReadOnlyList<Exam> Exams,
        IReadOnlyList<PatientEntered> Patients,
        IReadOnlyList<InstrumentMet> Instruments,
        IReadOnlyList<PersonId> People,
        IReadOnlyList<DayListEntered> DayLists,
        IReadOnlyList<Exam> Runs
    )
    {
        /// <summary>The batch as documents.</summary>
        public ExamLogChanges ToChanges() =>
            new()
            {
                Exams = [.. Exams.Select(ExamDocuments.Of)],
                Patients = [.. Patients.Select(ExamDocuments.Of)],
                Outbox = [.. Exams.SelectMany(OutboxDocuments.Of)],
                Carry = BookDocument.Write(Book),
                Instruments = [.. Instruments.Select(ExamDocuments.Of)],
                LookUps =
                [
                    .. People.Select(p => new StoredLookUp { List = ExamDocuments.PeopleList, Key = p.Value }),
                    .. DayLists.Select(ExamDocuments.Of),
                    .. Runs.SelectMany(BenchDocuments.Of),
                ],
            };
    }
}
