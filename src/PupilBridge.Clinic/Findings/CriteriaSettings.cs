using PupilBridge.Exams.Criteria;

namespace PupilBridge.Clinic.Findings;

/// <summary>What the clinic set for the criteria: the light of its site as measured, and limits other than the published ones.</summary>
public sealed record CriteriaSettings
{
    /// <summary>Nothing measured, and the limits that ship with the program.</summary>
    public static CriteriaSettings Default { get; } = new();

    /// <summary>What is known of the site.</summary>
    public SiteFacts Site { get; init; } = SiteFacts.Unknown;

    /// <summary>The limits; what belongs to the profile is taken from the exam's own.</summary>
    public CriteriaLimits Limits { get; init; } = CriteriaLimits.Default;
}
