using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// A swinging block that was repeated may be judged again: a repeat is what disagreeing outcomes call for, and its own outcome is kept
/// beside the one before.
/// </summary>
internal static class SwingRepeats
{
    /// <summary>The first repeat that reached its count and was not judged, after the last one that was.</summary>
    /// <returns>The question and the stimulus that it is about; null if there is none.</returns>
    public static (Asked Asked, long Stimulus)? Of(Exam exam)
    {
        if (!exam.TakesEvents)
        {
            return null;
        }

        return Of(exam, AskedFor.WhichConstrictsLess, ExamStep.SwingShort, Block.SwingShort)
            ?? Of(exam, AskedFor.WhichLetsGo, ExamStep.SwingLong, Block.SwingLong);
    }

    private static (Asked, long)? Of(Exam exam, AskedFor what, ExamStep step, Block dwell)
    {
        var judged = CurrentJudgements.Swings(exam, dwell).LastOrDefault()?.Run;
        var repeat = BlockRuns.Of(exam, dwell).FirstOrDefault(run => run.HasReachedCount && run.Number > judged);
        return repeat is null ? null : (new Asked(what, step, null, dwell), repeat.First.Value);
    }
}
