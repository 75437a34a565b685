using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;
using PupilBridge.Simulator;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Cohort.Examining;

/// <summary>How what an examiner sees becomes what an examiner says, with scatter.</summary>
internal sealed class Looking(HumanScatter scatter, Chance chance)
{
    /// <summary>
    /// A response on a continuous scale of grades. It meets the simulator's grading rule where grades are rounded to half steps:
    /// below 10 % narrowing the grade is at most 1, below 3 % it is 0. Ours: there is no metric standard for these grades.
    /// </summary>
    public static double Continuous(double relativeNarrowing)
    {
        var (lower, grade) = (0.0, 0.0);
        foreach (var limit in GradingRule.Limits)
        {
            var (from, to) = (grade == 0 ? 0 : grade - 0.75, grade + 0.25);
            if (relativeNarrowing < limit)
                return from + ((to - from) * (relativeNarrowing - lower) / (limit - lower));
            (lower, grade) = (limit, grade + 1);
        }

        return Math.Min(4, 3.25 + ((relativeNarrowing - lower) / 0.07));
    }

    /// <summary>A grade as it is said; a pupil that hardly moves leaves less to scatter.</summary>
    public Grade Grade(double relativeNarrowing)
    {
        if (chance.Happens(scatter.CouldNotSee))
            return Exams.Judgements.Grade.CouldNotSee;
        var seen = Continuous(relativeNarrowing);
        seen += scatter.Grade * Math.Clamp(seen, 0.2, 1) * chance.NextGaussian();
        // Half steps, a limit belonging to the step above it.
        return Exams.Judgements.Grade.FromHalfSteps(Math.Clamp((int)Math.Floor((2 * seen) + 0.5), 0, 8));
    }

    /// <summary>Which eye looks worse in some alternations, the first of which is not judged; the pupil of the lit eye is watched.</summary>
    /// <param name="burns">The lamps.</param>
    /// <param name="alone">The only pupil that is watched; null for both.</param>
    public SwingFinding Swing(IReadOnlyList<Burn> burns, Eye? alone)
    {
        if (chance.Happens(scatter.CouldNotSee))
            return SwingFinding.CouldNotSee;
        if (chance.Happens(scatter.SwingLapse))
            return (SwingFinding)chance.NextInteger(1, 4);
        double Widening(Eye lit) =>
            burns.Skip(2).Where(b => b.Lit == lit).Average(b => b.Pupils[alone ?? lit].NetWidening);
        var seen = Widening(Eye.Right) - Widening(Eye.Left) + (scatter.SwingMillimetres * chance.NextGaussian());
        if (Math.Abs(seen) < GradingRule.SeenDifferenceMillimetres)
            return SwingFinding.Alike;
        return SwingFindings.Worse(seen > 0 ? Eye.Right : Eye.Left);
    }

    public Exams.Judgements.PupilShape Shape(Simulator.Eyes.PupilShape truth)
    {
        if (chance.Happens(scatter.CouldNotSee))
            return Exams.Judgements.PupilShape.CouldNotSee;
        var isRound = truth == Simulator.Eyes.PupilShape.Round;
        isRound ^= chance.Happens(isRound ? scatter.ShapeInvented : scatter.ShapeMissed);
        return isRound ? Exams.Judgements.PupilShape.Round : Exams.Judgements.PupilShape.NotRound;
    }
}
