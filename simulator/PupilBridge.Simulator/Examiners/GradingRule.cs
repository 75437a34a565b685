using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Examiners;

/// <summary>What a pupil did during one stimulus, in millimetres.</summary>
/// <param name="Start">The size as the light came on.</param>
/// <param name="Smallest">The smallest size until it went off or the response was over.</param>
/// <param name="End">The size at the end.</param>
public readonly record struct PupilCourse(double Start, double Smallest, double End)
{
    /// <summary>By which part of its size the pupil narrowed, 0 to 1.</summary>
    public double RelativeNarrowing => Start > 0 ? Math.Max(0, (Start - Smallest) / Start) : 0;

    /// <summary>By how much it is wider at the end than at the start; below 0 if it is narrower.</summary>
    public double NetWidening => End - Start;
}

/// <summary>
/// How the simulated examiner turns what it sees into a judgement. The rule is ours and only for the simulator: there is no
/// metric standard for the grades 0 to 4.
/// </summary>
public static class GradingRule
{
    /// <summary>Upper limits of the grades 0 to 3, as parts of the size at the start.</summary>
    public static ReadOnlySpan<double> Limits => [0.03, 0.10, 0.18, 0.25];

    /// <summary>A difference between the eyes in the swinging test below this is not seen, in millimetres.</summary>
    public const double SeenDifferenceMillimetres = 0.25;

    /// <summary>Grades a response.</summary>
    /// <param name="relativeNarrowing">By which part of its size the pupil narrowed.</param>
    /// <returns>0 to 4.</returns>
    public static int Grade(double relativeNarrowing)
    {
        var grade = 0;
        while (grade < Limits.Length && relativeNarrowing >= Limits[grade])
        {
            grade++;
        }

        return grade;
    }

    /// <summary>Which eye narrows less, or lets go: the one whose light widens the watched pupil more.</summary>
    /// <param name="netWidening">Mean net widening with the light in each eye, in millimetres.</param>
    /// <returns>The eye; null if no difference is seen.</returns>
    public static Eye? Affected(PerEye<double> netWidening)
    {
        ArgumentNullException.ThrowIfNull(netWidening);
        var difference = netWidening.Right - netWidening.Left;
        if (Math.Abs(difference) < SeenDifferenceMillimetres)
        {
            return null;
        }

        return difference > 0 ? Eye.Right : Eye.Left;
    }
}
