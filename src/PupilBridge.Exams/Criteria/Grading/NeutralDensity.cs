namespace PupilBridge.Exams.Criteria.Grading;

/// <summary>Neutral-density filters.</summary>
public static class NeutralDensity
{
    /// <summary>The step of a bracket in log units: 0.3 (Thompson HS, Corbett JJ, Cox TA, Surv Ophthalmol 1981;26(1):39-42).</summary>
    public const double StepLogUnits = 0.3;

    /// <summary>How much light passes: T = 10^−D. Two filters add up in D and multiply in T.</summary>
    /// <param name="logUnits">The density in log units, 0 or more.</param>
    /// <returns>The part of the light that passes, 0 to 1.</returns>
    public static double Transmittance(double logUnits)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(logUnits);
        return Math.Pow(10, -logUnits);
    }

    /// <summary>The density of some steps of 0.3, without the dust of binary sums.</summary>
    /// <param name="steps">How many steps, 0 or more.</param>
    /// <returns>The density in log units.</returns>
    public static double OfSteps(int steps)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(steps);
        return 3 * steps / 10.0;
    }
}
