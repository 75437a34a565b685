namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>How much a disagreement between two grades counts.</summary>
public enum KappaWeights
{
    /// <summary>As much as the grades are apart.</summary>
    Linear = 1,

    /// <summary>As much as the square of how far the grades are apart.</summary>
    Quadratic = 2,
}
