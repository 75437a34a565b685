using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Grading;

/// <summary>
/// The scale of Bell RA et al., "Clinical grading of relative afferent pupillary defects", Arch Ophthalmol 1993;111(7):938-942
/// (abstract): five grades, 3 s per eye. A scale of its own: it is never converted into log units or into another scale, though
/// others share the word "grade".
/// </summary>
public enum BellGrade
{
    /// <summary>Weak initial constriction, then greater redilatation.</summary>
    I = 1,

    /// <summary>Initial stall, then greater redilatation.</summary>
    II = 2,

    /// <summary>Immediate dilatation.</summary>
    III = 3,

    /// <summary>Immediate dilatation after prolonged (6 s) light in the better eye.</summary>
    IV = 4,

    /// <summary>Immediate dilatation, no secondary constriction.</summary>
    V = 5,
}

/// <summary>A grade that a person gave.</summary>
/// <param name="Eye">The eye of the defect.</param>
/// <param name="Grade">The grade.</param>
public sealed record BellGrading(Eye Eye, BellGrade Grade);

/// <summary>What may be graded, and how it reads.</summary>
public static class BellScale
{
    /// <summary>The scale's name, kept with every grade.</summary>
    public const string Name = "Bell 1993";

    /// <summary>The grades that may be offered for a defect of an eye.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="worseEye">The eye of the defect.</param>
    /// <param name="prolongedMilliseconds">How long the better eye must have been lit for grade IV, in ms.</param>
    /// <returns>The grades; none before the long dwell's alternations are complete, IV only where 6 s were done.</returns>
    public static ImmutableArray<BellGrade> Offered(Exam exam, Eye worseEye, int prolongedMilliseconds = 6_000)
    {
        ArgumentNullException.ThrowIfNull(exam);
        if (!Assembly.Views.BlockRuns.Of(exam, Block.SwingLong).Any(run => run.HasReachedCount))
            return [];
        return WasProlonged(exam, worseEye, prolongedMilliseconds)
            ? [BellGrade.I, BellGrade.II, BellGrade.III, BellGrade.IV, BellGrade.V]
            : [BellGrade.I, BellGrade.II, BellGrade.III, BellGrade.V];
    }

    /// <summary>Whether the better eye was lit for 6 s, and the light then went to the other eye at once.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="worseEye">The eye of the defect.</param>
    /// <param name="prolongedMilliseconds">How long, in ms; a tick's step of 1 ms is allowed for.</param>
    /// <returns>True if so.</returns>
    public static bool WasProlonged(Exam exam, Eye worseEye, int prolongedMilliseconds = 6_000)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var atOnce = exam.Profile.SwingLong.MaxGapMilliseconds;
        for (var i = 1; i < exam.Stimuli.Count; i++)
        {
            var (before, after) = (exam.Stimuli[i - 1], exam.Stimuli[i]);
            var isLong = before.End == StimulusEnd.Complete && before.DwellMilliseconds >= prolongedMilliseconds - 1;
            if (isLong && before.Eye == worseEye.Fellow() && after.Eye == worseEye && after.GapMilliseconds <= atOnce)
                return true;
        }

        return false;
    }

    /// <summary>What was seen, in words.</summary>
    /// <param name="grade">The grade.</param>
    /// <returns>The published criterion.</returns>
    public static string Words(BellGrade grade) =>
        grade switch
        {
            BellGrade.I => "weak initial constriction, then greater redilatation",
            BellGrade.II => "initial stall, then greater redilatation",
            BellGrade.III => "immediate dilatation",
            BellGrade.IV => "immediate dilatation after 6 s of light in the better eye",
            BellGrade.V => "immediate dilatation, no secondary constriction",
            _ => throw new ArgumentOutOfRangeException(nameof(grade), grade, "The scale has grades I to V."),
        };
}
