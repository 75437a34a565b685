using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Grading;

/// <summary>What someone wants to say of one dwell of the swinging test, before it is an outcome.</summary>
/// <param name="Outcome">The outcome; null where it is refused.</param>
/// <param name="Refusal">Why it is refused, and what to do; null where it is not.</param>
public sealed record SwingClaim(SwingOutcome? Outcome, string? Refusal)
{
    /// <summary>Why both eyes cannot be the worse one.</summary>
    public const string BothWorse =
        "Both eyes cannot be the worse one within one dwell: the test compares the eyes with each other, and a loss alike in both "
        + "shows no difference. Judge again which eye is worse, or say that both are alike, and grade the direct responses.";

    /// <summary>Makes an outcome of what was marked.</summary>
    /// <param name="dwell">The short or the long dwell.</param>
    /// <param name="worse">For each eye, whether it was marked as the worse one.</param>
    /// <param name="observed">Whose pupils were watched.</param>
    /// <returns>The outcome, or why there is none.</returns>
    public static SwingClaim Of(Block dwell, PerEye<bool> worse, PupilsObserved observed)
    {
        ArgumentNullException.ThrowIfNull(worse);
        if (worse.Right && worse.Left)
            return new(null, BothWorse);
        var finding = SwingFinding.Alike;
        if (worse.Right || worse.Left)
            finding = SwingFindings.Worse(worse.Right ? Eye.Right : Eye.Left);
        return new(new(dwell, finding, observed), null);
    }
}
