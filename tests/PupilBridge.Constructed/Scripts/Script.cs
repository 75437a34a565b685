using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Constructed.Scripts;

/// <summary>What a script came to: its journal, and what the reducer made of it.</summary>
public sealed record Folded(
    ExamBook Book,
    IReadOnlyList<SequencedEntry> Journal,
    SortedDictionary<ExamId, Exam> Exams,
    IReadOnlyList<ExamChange> Changes
)
{
    /// <summary>The bench runs by their numbers.</summary>
    public SortedDictionary<ExamId, Exam> Runs { get; init; } = [];

    /// <summary>The only bench run of the script.</summary>
    public Exam Run => Runs.Values.Single();

    /// <summary>The only exam of the script.</summary>
    public Exam Exam => Exams.Values.Single();

    /// <summary>The n-th exam in the order of opening, from 1.</summary>
    public Exam this[int number] => Exams.Values.ElementAt(number - 1);

    public static Folded Of(IReadOnlyList<SequencedEntry> journal)
    {
        var book = ExamBook.Empty;
        SortedDictionary<ExamId, Exam> exams = [];
        SortedDictionary<ExamId, Exam> runs = [];
        List<ExamChange> changes = [];
        foreach (var entry in journal)
        {
            var (next, made) = ExamReducer.Apply(
                book,
                entry,
                id => exams.GetValueOrDefault(id) ?? runs.GetValueOrDefault(id)
            );
            book = next;
            changes.AddRange(made);
            foreach (var change in made)
            {
                if (change is ExamChanged exam)
                    exams[exam.Exam.Id] = exam.Exam;
                else if (change is BenchRunChanged run)
                    runs[run.Run.Id] = run.Run;
            }
        }

        return new(book, journal, exams, changes) { Runs = runs };
    }
}

/// <summary>
/// A small language for exams, one line each, so that a test reads as what happened. A line may begin with a label
/// (<c>name:</c>) for later lines to refer to; <c>#</c> begins a remark; <c>@S</c> before a command speaks of the instrument
/// with serial number S (else of Q7). <see cref="ScriptCommands"/> lists the commands.
/// </summary>
public static class Script
{
    public static Folded Run(string text) => Folded.Of(Journal(text));

    public static IReadOnlyList<SequencedEntry> Journal(string text)
    {
        var commands = new ScriptCommands();
        foreach (var raw in text.Split('\n'))
        {
            var line = raw.Split('#')[0].Trim();
            foreach (
                var command in line.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            )
                commands.Do(command);
        }

        return commands.Journal;
    }
}
