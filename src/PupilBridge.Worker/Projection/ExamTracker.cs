using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// The exams as the journal has them up to its last durable entry: the reducer's book, the exams that ended lately, and
/// what is still to be written to the exam log. Live exams are served from here, whatever the exam log is doing.
/// </summary>
/// <remarks>One thread applies entries; any may ask.</remarks>
public sealed class ExamTracker
{
    private readonly Lock gate = new();
    private readonly RecentExams recent = new();
    private readonly Func<ExamId, Exam?> older;
    private readonly Func<ExamId, Exam?> olderOrWait;
    private volatile ExamBook book = ExamBook.Empty;

    /// <summary>Makes a tracker that stands before the first entry.</summary>
    /// <param name="older">Finds an exam in the exam log.</param>
    /// <param name="olderOrWait">The same for the reducer, which waits where the exam log is being made anew; null for no difference.</param>
    internal ExamTracker(Func<ExamId, Exam?> older, Func<ExamId, Exam?>? olderOrWait = null)
    {
        this.older = older;
        this.olderOrWait = olderOrWait ?? older;
    }

    /// <summary>What is in force, the instruments, and the exams that take events. A value: it never changes.</summary>
    public ExamBook Book => book;

    /// <summary>What the exam log does not hold yet.</summary>
    internal UnwrittenChanges Unwritten { get; } = new();

    /// <summary>An exam as the journal has it now.</summary>
    /// <param name="id">The exam.</param>
    /// <returns>Null if there is none; an exam that ended long ago is looked up in the exam log.</returns>
    /// <exception cref="ExamLogBrokenException">It is an older one, and the exam log cannot be read now.</exception>
    public Exam? Find(ExamId id) => FindHere(id) ?? older(id);

    /// <summary>An exam that a list of the exam log brought along whole, as the journal has it now.</summary>
    /// <param name="stored">The exam as the list has it.</param>
    /// <returns>The exam; the exam log is not asked again.</returns>
    /// <exception cref="System.Text.Json.JsonException">Something else is stored there.</exception>
    public Exam Read(StoredExam stored) => FindHere(ExamDocuments.IdOf(stored)) ?? ExamDocuments.Read(stored);

    /// <summary>
    /// The exams of patients that the exam log may hold otherwise than the journal, or not yet: those that take events, and those that
    /// changed since it was written. Ask before the log is read, and find them (<see cref="Find"/>) after: then nothing is left out, and
    /// nothing is older than what the log gave.
    /// </summary>
    public IReadOnlySet<ExamId> AheadOfLog() => new HashSet<ExamId>([.. book.OpenExams.Keys, .. Unwritten.Exams]);

    /// <summary>What was entered last of a patient, as far as the exam log does not hold it yet.</summary>
    /// <param name="id">The patient's number.</param>
    /// <returns>Null if the exam log holds whatever is known.</returns>
    public PatientEntered? FindUnwritten(PatientId id) => Unwritten.Find(id);

    /// <summary>The list of a day, as far as the exam log does not hold it yet.</summary>
    /// <param name="day">The day.</param>
    /// <returns>Null if the exam log holds the latest, or there is none.</returns>
    public DayListEntered? FindUnwritten(DateOnly day) => Unwritten.Find(day);

    /// <summary>The exam that takes an instrument's events.</summary>
    /// <param name="serial">The instrument.</param>
    /// <returns>Null if none does.</returns>
    public Exam? OpenExamOf(SerialNumber serial) => book.OpenExamOf(serial);

    /// <summary>Begins at a place, and forgets whatever was before.</summary>
    /// <param name="start">Where.</param>
    internal void Begin(ExamLogStart start)
    {
        Unwritten.Begin(start.Sequence, start.Book);
        lock (gate)
        {
            recent.Clear();
            foreach (var exam in start.Ended)
                recent.Put(exam);
            book = start.Book;
        }
    }

    /// <summary>The book, and the exams that ended lately as they were at the same entry.</summary>
    internal (ExamBook Book, IReadOnlyList<Exam> Ended) Look()
    {
        lock (gate)
            return (book, recent.All);
    }

    /// <summary>Applies the next entry.</summary>
    /// <param name="entry">The entry; entries come in the journal's order.</param>
    /// <returns>What it changed.</returns>
    internal IReadOnlyList<ExamChange> Apply(SequencedEntry entry)
    {
        var (after, changes) = ExamReducer.Apply(book, entry, id => FindHere(id) ?? olderOrWait(id));
        Unwritten.Add(entry, changes, after);
        lock (gate)
        {
            foreach (var ended in changes.Select(SittingOf).OfType<Exam>().Where(sitting => !sitting.TakesEvents))
                recent.Put(ended);
            book = after;
        }

        return changes;
    }

    private static Exam? SittingOf(ExamChange change) =>
        change switch
        {
            ExamChanged exam => exam.Exam,
            BenchRunChanged run => run.Run,
            _ => null,
        };

    private Exam? FindHere(ExamId id)
    {
        if (book.OpenExams.TryGetValue(id, out var open) || book.OpenRuns.TryGetValue(id, out open))
            return open;
        lock (gate)
        {
            if (recent.Find(id) is { } ended)
                return ended;
        }

        return Unwritten.Find(id);
    }
}
