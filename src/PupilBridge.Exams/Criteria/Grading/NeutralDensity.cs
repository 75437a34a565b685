namespace PupilBridge.Exams.Criteria.Grading;

/// <summary>Neutral-density filters.</summary>
public static class NeutralDensity
{
    /// <summary>
    /// The density of some steps of a bracket, 0.3 log units each (Thompson HS, Corbett JJ, Cox TA, Surv Ophthalmol 1981;26(1):39-42),
    /// without the dust of binary sums. Densities add up; a filter lets 10^−D of the light through.
    /// </summary>
    /// <param name="steps">How many steps, 0 or more.</param>
    /// <returns>The density in log units.</returns>
    public static double OfSteps(int steps)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(steps);
        return 3 * steps / 10.0;
    }
}
