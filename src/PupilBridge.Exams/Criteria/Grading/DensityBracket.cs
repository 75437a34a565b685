using System.Globalization;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Grading;

/// <summary>What was seen through a filter before the better eye.</summary>
public enum BracketAnswer
{
    /// <summary>The same eye is still the worse one.</summary>
    StillWorse = 1,

    /// <summary>Both eyes alike: the filter makes up for the defect.</summary>
    Alike = 2,

    /// <summary>The other eye, behind the filter, is now the worse one.</summary>
    Reversed = 3,

    /// <summary>It could not be seen.</summary>
    CouldNotSee = 4,
}

/// <summary>Where a bracket stands.</summary>
public enum BracketState
{
    /// <summary>The next filter is to be held.</summary>
    Running = 1,

    /// <summary>A filter made both eyes alike, and the next stronger one reversed them.</summary>
    Nulled = 2,

    /// <summary>One filter left the eye worse and the next one reversed it: the defect lies between; nothing is interpolated.</summary>
    Between = 3,

    /// <summary>Even the strongest filter left the eye worse.</summary>
    BeyondStrongest = 4,

    /// <summary>Answers contradict each other, or could not be seen twice at one filter: repeat.</summary>
    Inconclusive = 5,
}

/// <summary>What to do next.</summary>
/// <param name="LogUnits">The filter to hold, in log units.</param>
/// <param name="BeforeEye">Before which eye: the better one.</param>
/// <param name="Words">The same, and what to judge, in words.</param>
public sealed record BracketPrompt(double LogUnits, Eye BeforeEye, string Words);

/// <summary>
/// A guided bracket of a relative afferent pupillary defect by neutral-density filters in steps of 0.3 log units before the better
/// eye, until the difference is nulled and then reversed (Thompson HS, Corbett JJ, Cox TA, Surv Ophthalmol 1981;26(1):39-42; the
/// text was not at hand, the method is from memory). A value: each answer gives a new bracket.
/// </summary>
public sealed record DensityBracket
{
    /// <summary>The most steps of 0.3 that a strongest filter may have: 3.0 log units.</summary>
    public const int StrongestStepAllowed = 10;

    /// <summary>The eye found worse without a filter.</summary>
    public required Eye WorseEye { get; init; }

    /// <summary>How many steps of 0.3 the strongest filter at hand has, 1 or more; 6 is 1.8 log units.</summary>
    public required int StrongestStep { get; init; }

    /// <summary>The answers so far, the first one for 0.3; "could not see" is answered again at the same filter.</summary>
    public ValueList<BracketAnswer> Answers { get; init; }

    /// <summary>Begins a bracket.</summary>
    /// <param name="worseEye">The eye found worse without a filter.</param>
    /// <param name="strongestStep">How many steps of 0.3 the strongest filter has, 1 to 10.</param>
    /// <returns>The bracket, at its first filter.</returns>
    public static DensityBracket Begin(Eye worseEye, int strongestStep = 6)
    {
        if (worseEye is not (Eye.Right or Eye.Left))
            throw new ArgumentOutOfRangeException(nameof(worseEye), worseEye, "An eye is right or left.");
        ArgumentOutOfRangeException.ThrowIfLessThan(strongestStep, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(strongestStep, StrongestStepAllowed);
        return new() { WorseEye = worseEye, StrongestStep = strongestStep };
    }

    /// <summary>The bracket after an answer.</summary>
    /// <param name="answer">What was seen through the filter asked for.</param>
    /// <returns>A new bracket.</returns>
    /// <exception cref="InvalidOperationException">The bracket is over: begin a new one.</exception>
    public DensityBracket Answer(BracketAnswer answer)
    {
        if (!Enum.IsDefined(answer))
            throw new ArgumentOutOfRangeException(nameof(answer), answer, "There is no such answer.");
        if (Reading.State != BracketState.Running)
            throw new InvalidOperationException("This bracket is over; to repeat it, begin a new one.");
        return this with { Answers = Answers.Add(answer) };
    }

    /// <summary>What it comes to so far.</summary>
    public BracketReading Reading => BracketReading.Of(this);

    /// <summary>What to do next; null once it is over.</summary>
    public BracketPrompt? Next
    {
        get
        {
            if (Reading is not { State: BracketState.Running, NextStep: var step })
                return null;
            var (density, better) = (NeutralDensity.OfSteps(step), WorseEye.Fellow());
            var filter = density.ToString("0.0", CultureInfo.InvariantCulture);
            return new(
                density,
                better,
                $"Hold the {filter} log unit filter before {Words.Of(better)}, the better eye. Swing as before; do not judge "
                    + $"the first alternation. Is {Words.Of(WorseEye)} still worse, are both alike, or is {Words.Of(better)} "
                    + "now the worse one?"
            );
        }
    }
}

/// <summary>What a bracket comes to.</summary>
/// <param name="State">Where it stands.</param>
/// <param name="LogUnits">The density that nulled the difference, or the lower end of where it lies; null where there is none.</param>
/// <param name="UpperLogUnits">The upper end of where it lies, where it lies between two filters; null elsewhere.</param>
/// <param name="NextStep">The step of the next filter while it runs.</param>
public sealed record BracketReading(BracketState State, double? LogUnits, double? UpperLogUnits, int NextStep)
{
    internal static BracketReading Of(DensityBracket bracket)
    {
        var (step, unseen) = (1, 0);
        int? nulled = null;
        foreach (var answer in bracket.Answers)
        {
            if (answer == BracketAnswer.CouldNotSee)
            {
                if (++unseen > 1)
                    return new(BracketState.Inconclusive, null, null, 0);
                continue;
            }

            unseen = 0;
            if (answer == BracketAnswer.Reversed)
                return Reversed(step, nulled);
            // Worse again behind a stronger filter than the one that nulled it, or alike behind two: no bracket.
            if (nulled is not null)
                return new(BracketState.Inconclusive, null, null, 0);
            if (answer == BracketAnswer.Alike)
                nulled = step;
            if (step == bracket.StrongestStep)
                return AtStrongest(answer, step);
            step++;
        }

        return new(BracketState.Running, null, null, step);
    }

    private static BracketReading Reversed(int step, int? nulled) =>
        nulled is { } at
            ? new(BracketState.Nulled, NeutralDensity.OfSteps(at), null, 0)
            : new(BracketState.Between, NeutralDensity.OfSteps(step - 1), NeutralDensity.OfSteps(step), 0);

    private static BracketReading AtStrongest(BracketAnswer answer, int step) =>
        answer == BracketAnswer.Alike
            ? new(BracketState.Nulled, NeutralDensity.OfSteps(step), null, 0)
            : new(BracketState.BeyondStrongest, NeutralDensity.OfSteps(step), null, 0);
}
