using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>The dial was moved, or the sequence went on by itself.</summary>
internal static class DialSteps
{
    public static void Moved(Workspace work, Happening happening, ExamId? exam)
    {
        RestSteps.Complete(work, happening.Serial, happening.When.Sequence);
        MarkSteps.Refuse(work, happening.Serial, PairRefusalReason.ModeChanged, happening.When.Sequence);
        var move = new DialMove(
            happening.When,
            happening.Event.Mode,
            happening.Event.Block,
            happening.Event.Cause == ModeCause.Self
        );
        work.Put(work.Lane(happening.Serial) with { Dial = move });
        work.Change(exam, e => e with { Dial = e.Dial.Add(move) });
    }
}
