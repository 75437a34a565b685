using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// The scratch paper of one application of the reducer: what was touched so far. It lives for one entry and is seen by
/// nobody else, so that the reducer as a whole stays a pure function.
/// </summary>
internal sealed class Workspace(ExamBook book, SequencedEntry entry, Func<ExamId, Exam?> lookup)
{
    private readonly SortedDictionary<ExamId, Exam> exams = [];
    private readonly HashSet<ExamId> opened = [];
    private readonly SortedDictionary<string, LaneState> lanes = new(StringComparer.Ordinal);
    private readonly List<ExamChange> changes = [];
    private ExamBook book = book;

    public ExamBook Book => book;

    public JournalSequence Sequence => entry.Sequence;

    /// <summary>Counts the exams that were changed, so that a step can tell whether anything took the entry.</summary>
    public bool TouchedAnExam => exams.Count > 0;

    public void SetInForce(Func<ExamBook, ExamBook> change) => book = change(book);

    public LaneState Lane(SerialNumber serial) =>
        lanes.GetValueOrDefault(serial.Value) ?? book.Lane(serial) ?? new LaneState { Serial = serial };

    public void Put(LaneState lane) => lanes[lane.Serial.Value] = lane;

    public Exam? Find(ExamId id) => exams.GetValueOrDefault(id) ?? Before(id);

    public void Put(Exam exam) => exams[exam.Id] = exam;

    public void PutNew(Exam exam)
    {
        opened.Add(exam.Id);
        Put(exam);
    }

    /// <summary>The exam with the entry's sealed texts among its own; they go with its patient, whatever becomes of the entry.</summary>
    public Exam WithTexts(Exam exam)
    {
        if (entry.Texts.Count == 0)
            return exam;
        var texts = entry.Texts.Select(key => new SealedText(Sequence, key));
        exam = exam with { SealedTexts = [.. exam.SealedTexts, .. texts] };
        Put(exam);
        return exam;
    }

    /// <summary>Changes an exam if there is one of that name.</summary>
    public void Change(ExamId? id, Func<Exam, Exam> change)
    {
        if (id is { } name && Find(name) is { } exam)
            Put(change(exam));
    }

    /// <summary>The exams of some kind that are not as they were before the entry.</summary>
    public ImmutableArray<Exam> Changed(Func<Exam, bool> isMeant) =>
        [.. exams.Values.Where(e => isMeant(e) && Before(e.Id) != e)];

    public void Add(ExamChange change) => changes.Add(change);

    public void Ignore(string reason) => changes.Add(new EntryIgnored(Sequence, reason));

    public Moment Now(UtcTime at) => new(Sequence, at, 0, null, null);

    public (ExamBook Book, ImmutableArray<ExamChange> Changes) Finish()
    {
        var (open, runs) = (book.OpenExams.ToBuilder(), book.OpenRuns.ToBuilder());
        foreach (var exam in exams.Values)
        {
            var (isNew, isOver) = (opened.Contains(exam.Id), !exam.TakesEvents);
            changes.Add(
                exam.Bench is null
                    ? new ExamChanged(Sequence, exam, isNew, isOver)
                    : new BenchRunChanged(Sequence, exam, isNew, isOver)
            );
            var kept = exam.Bench is null ? open : runs;
            if (exam.TakesEvents)
                kept[exam.Id] = exam;
            else
                kept.Remove(exam.Id);
        }

        foreach (var lane in lanes.Values)
            changes.Add(new LaneChanged(Sequence, lane));
        var last = Sequence > book.LastApplied ? Sequence : book.LastApplied;
        var next = book with
        {
            LastApplied = last,
            OpenExams = open.ToImmutable(),
            OpenRuns = runs.ToImmutable(),
            Lanes = book.Lanes.SetItems(lanes),
        };
        return (next, [.. changes]);
    }

    private Exam? Before(ExamId id) =>
        book.OpenExams.GetValueOrDefault(id) ?? book.OpenRuns.GetValueOrDefault(id) ?? lookup(id);
}
