using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>A bracket as it was entered.</summary>
/// <param name="Bracket">The bracket.</param>
/// <param name="Steps">The steps that count in it, in order.</param>
public sealed record EnteredBracket(DensityBracket Bracket, ValueList<FilterStepRecord> Steps);

/// <summary>How great a defect was found to be: the latest bracket by filters, and the grade on Bell's scale that holds.</summary>
public static class DefectGrades
{
    /// <summary>The latest bracket.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>
    /// Null if none was begun. Steps taken back do not count, nor those after them that skip a filter, so that a bracket never rests on
    /// an answer that nobody stands by.
    /// </returns>
    public static EnteredBracket? Bracket(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        EnteredBracket? entered = null;
        foreach (var step in exam.FilterSteps)
        {
            if (step.WithdrawnBy is not null)
                continue;
            var worse = step.BeforeEye.Fellow();
            if (!IsRunningFor(entered, worse) || step.FilterSteps != entered!.Bracket.Reading.NextStep)
            {
                if (step.FilterSteps != 1)
                    continue;
                entered = new(DensityBracket.Begin(worse), []);
            }

            entered = new(entered.Bracket.Answer(step.Answer), entered.Steps.Add(step));
        }

        return entered;
    }

    /// <summary>The filter that is due next.</summary>
    /// <param name="entered">The latest bracket; null if none was begun.</param>
    /// <param name="worseEye">The eye of the defect.</param>
    /// <returns>In steps of 0.3 log units; 1 where a new bracket would begin.</returns>
    public static int NextStep(EnteredBracket? entered, Eye worseEye) =>
        IsRunningFor(entered, worseEye) ? entered!.Bracket.Reading.NextStep : 1;

    /// <summary>The grade on Bell's scale that holds.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Null if none was given.</returns>
    public static BellGradeRecord? Bell(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.BellGrades.LastOrDefault(grade => grade.WithdrawnBy is null);
    }

    private static bool IsRunningFor(EnteredBracket? entered, Eye worseEye) =>
        entered is { Bracket: { Reading.State: BracketState.Running } bracket } && bracket.WorseEye == worseEye;
}
