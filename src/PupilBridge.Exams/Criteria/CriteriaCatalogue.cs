using System.Collections.Frozen;
using System.Collections.Immutable;
using PupilBridge.Exams.Criteria.Rules;

namespace PupilBridge.Exams.Criteria;

/// <summary>All criteria there are, in the order in which findings are listed.</summary>
public static class CriteriaCatalogue
{
    /// <summary>The criteria.</summary>
    public static ImmutableArray<Criterion> All { get; } =
    [
        AnisocoriaCriteria.Descriptive,
        AnisocoriaCriteria.Clinical,
        PatternCriteria.InDim,
        PatternCriteria.InBright,
        PatternCriteria.Alike,
        DilationCriteria.Lag,
        DilationCriteria.Slow,
        SwingCriteria.Short,
        SwingCriteria.Long,
        SwingCriteria.Rapd,
        SwingCriteria.Reversed,
        DefectGradeCriteria.LogUnits,
        DefectGradeCriteria.Bell,
        DirectCriteria.Poor,
        DirectCriteria.NearDue,
        ConsensualCriteria.Afferent,
        ConsensualCriteria.Efferent,
        DissociationCriteria.Dissociation,
        FormCriteria.Shape,
        FormCriteria.DimNotLarger,
        ExpectedCriteria.AgeAndLight,
        ExpectedCriteria.Decade,
        ChangeCriteria.Size,
        ChangeCriteria.Difference,
        QualityCriteria.Timing,
        QualityCriteria.LampBalance,
        QualityCriteria.EyeStatus,
        QualityCriteria.Fixation,
        QualityCriteria.Incomplete,
    ];

    private static readonly FrozenDictionary<string, Criterion> ById = All.ToFrozenDictionary(c => c.Id);

    /// <summary>The criterion of an id.</summary>
    /// <param name="id">The id.</param>
    /// <returns>The criterion; null if there is none of that name.</returns>
    public static Criterion? Find(string id) => ById.GetValueOrDefault(id);
}
