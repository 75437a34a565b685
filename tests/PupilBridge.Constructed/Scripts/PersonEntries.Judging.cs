using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;

namespace PupilBridge.Constructed.Scripts;

/// <summary>The script's commands that are judgements.</summary>
public static partial class PersonEntries
{
    private static Func<By, ExamId, ExamEntry> Judge(Judgement judgement, JournalSequence? saw) =>
        (by, exam) =>
            new JudgementEntered
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = exam,
                Judgement = judgement,
                StepSeen = null,
                StimulusSeen = saw,
            };

    private static ConsensualResponse Consensual(string[] w)
    {
        var lit = ScriptCommands.EyeOf(w[1]);
        return new(lit, PupilBridge.Instrument.EyeFacts.Fellow(lit), GradeOf(w[2]));
    }

    private static SwingOutcome Swing(string[] w)
    {
        var finding = w[2] switch
        {
            "alike" => SwingFinding.Alike,
            "?" => SwingFinding.CouldNotSee,
            _ => SwingFindings.Worse(ScriptCommands.EyeOf(w[2])),
        };
        var observed = w[^1] switch
        {
            "only=R" => PupilsObserved.Right,
            "only=L" => PupilsObserved.Left,
            _ => PupilsObserved.Both,
        };
        return new(ScriptCommands.BlockOf(w[1]), finding, observed);
    }

    private static Grade GradeOf(string word) =>
        Grade.TryParse(word, out var grade) ? grade : throw new ArgumentException($"no grade: {word}");
}
