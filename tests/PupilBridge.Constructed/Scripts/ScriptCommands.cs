using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Constructed.Scripts;

/// <summary>The commands of the script language.</summary>
public sealed partial class ScriptCommands
{
    private readonly Dictionary<string, Lane> lanes = [];
    private readonly Dictionary<string, (JournalSequence Sequence, EntryId Id)> labels = [];
    private readonly List<SequencedEntry> journal = [];
    private readonly SortedDictionary<ExamId, Exam> exams = [];
    private readonly SortedDictionary<ExamId, Exam> runs = [];
    private ExamBook book = ExamBook.Empty;
    private int folded;
    private long clock = 1_000_000;
    private ulong ids;
    private EntryId? forcedId;
    private Lane lane;

    public ScriptCommands() => lane = LaneOf("Q7");

    public IReadOnlyList<SequencedEntry> Journal => journal;

    public void Do(string command)
    {
        string? label = null;
        if (command.Split(' ')[0].EndsWith(':'))
        {
            label = command.Split(' ')[0].TrimEnd(':');
            command = command[(label.Length + 1)..].Trim();
        }

        lane = LaneOf("Q7");
        if (command.StartsWith('@'))
        {
            lane = LaneOf(command.Split(' ')[0][1..]);
            command = command[(lane.Serial.Value.Length + 1)..].Trim();
        }

        var before = journal.Count;
        var words = command.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (!InstrumentSays(words) && !BenchSays(words) && !PersonSays(words) && !ServiceSays(words))
            throw new ArgumentException($"No such command: {command}");
        if (label is not null)
            labels[label] = (new(before + 1), (journal[^1].Entry as PersonEntry)?.Id ?? default);
    }

    /// <summary>The exam of an instrument that was opened last; null if there is none.</summary>
    public ExamId? LastExamOf(Lane of)
    {
        FoldOn();
        return exams.Values.LastOrDefault(e => e.Serial == of.Serial)?.Id;
    }

    private void FoldOn()
    {
        for (; folded < journal.Count; folded++)
        {
            (book, var changes) = ExamReducer.Apply(
                book,
                journal[folded],
                id => exams.GetValueOrDefault(id) ?? runs.GetValueOrDefault(id)
            );
            foreach (var change in changes)
            {
                if (change is ExamChanged exam)
                    exams[exam.Exam.Id] = exam.Exam;
                else if (change is BenchRunChanged run)
                    runs[run.Run.Id] = run.Run;
            }
        }
    }

    private EntryId NextId() => forcedId ?? new(++ids);

    private void Say(InstrumentEvent happened) => Put(lane.Say(happened, clock));

    private void Put(JournalEntry entry)
    {
        if (entry is InstrumentReported reported && LaneOf(reported.Serial.Value) is { IsHeld: true } holding)
            holding.Hold(reported);
        else
            journal.Add(new(new(journal.Count + 1), entry));
    }

    public Lane LaneOf(string serial) =>
        lanes.TryGetValue(serial, out var known) ? known : lanes[serial] = new Lane(serial);

    internal static Eye EyeOf(string word) => word[0] == 'R' ? Eye.Right : Eye.Left;

    internal static Block BlockOf(string word) =>
        word switch
        {
            "direct" => Block.Direct,
            "short" => Block.SwingShort,
            "long" => Block.SwingLong,
            "near" => Block.Near,
            _ => Block.None,
        };
}
