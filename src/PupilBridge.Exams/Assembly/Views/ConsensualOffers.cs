using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>
/// The consensual responses that may be graded and need not be: where a direct response is poor or the two are unequal, light in
/// either eye tells whether the pupil of its fellow moves. Nothing is missing without them.
/// </summary>
public static class ConsensualOffers
{
    /// <summary>The questions that are open, light in the right eye before light in the left.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>
    /// One for each eye that had a complete stimulus of the direct block and whose consensual response was not graded; none before
    /// both direct responses were graded, where a pupil cannot be seen, once the exam was made ready, and where the profile asks for
    /// it as a step of its own.
    /// </returns>
    public static ImmutableArray<Asked> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        Eye[] both = [Eye.Right, Eye.Left];
        if (
            exam.Status != ExamStatus.Open
            || exam.IsSealed
            || exam.Profile.Steps.Contains(ExamStep.Consensual)
            || !ExamSteps.IsConsensualPrompted(exam)
            || both.Any(eye => ExamConditions.IsHidden(exam, eye) || CurrentJudgements.Direct(exam, eye) is null)
        )
            return [];
        return
        [
            .. both.Where(lit => Asked.HasStimulus(exam, lit) && CurrentJudgements.Consensual(exam, lit) is null)
                .Select(lit => new Asked(AskedFor.GradeConsensual, ExamStep.Consensual, lit, Block.Direct)),
        ];
    }
}
