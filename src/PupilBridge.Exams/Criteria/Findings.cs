using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria.Rules;

namespace PupilBridge.Exams.Criteria;

/// <summary>
/// What all criteria say of an exam. A pure function: equal inputs give equal findings, and mirrored eyes mirrored ones. Nothing
/// that was not examined is ever "not met".
/// </summary>
public static class Findings
{
    /// <summary>Evaluates every criterion.</summary>
    /// <param name="input">The exam with what is known beside it.</param>
    /// <returns>
    /// At least one finding of every criterion, in the catalogue's order by topic, right before left; none for an exam that was set
    /// aside.
    /// </returns>
    public static ImmutableArray<Finding> Of(CriteriaInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        if (input.Exam.Status == ExamStatus.SetAside)
            return [];
        return
        [
            .. AnisocoriaCriteria.Evaluate(input),
            .. PatternRule.Evaluate(input),
            .. DilationCriteria.Evaluate(input),
            .. SwingRule.Evaluate(input),
            .. ReversedRule.Evaluate(input),
            .. DefectGradeCriteria.Evaluate(input),
            .. DirectCriteria.Evaluate(input),
            .. ConsensualCriteria.Evaluate(input),
            .. DissociationCriteria.Evaluate(input),
            .. FormCriteria.Evaluate(input),
            .. ExpectedCriteria.Evaluate(input),
            .. ChangeCriteria.Evaluate(input),
            .. QualityRule.Evaluate(input),
        ];
    }
}
