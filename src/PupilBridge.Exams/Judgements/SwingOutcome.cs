using PupilBridge.Instrument;

namespace PupilBridge.Exams.Judgements;

/// <summary>
/// What the swinging-flashlight test showed at one dwell. The short dwell asks which eye constricts less, the long dwell
/// which eye lets go.
/// </summary>
public enum SwingFinding
{
    /// <summary>Both eyes alike.</summary>
    Alike = 1,

    /// <summary>Worse with the light in the right eye.</summary>
    RightWorse = 2,

    /// <summary>Worse with the light in the left eye.</summary>
    LeftWorse = 3,

    /// <summary>It could not be seen; this says nothing about the eyes.</summary>
    CouldNotSee = 4,
}

/// <summary>Whose pupils were watched.</summary>
public enum PupilsObserved
{
    /// <summary>Both (OU): the pupil of whichever eye was lit.</summary>
    Both = 1,

    /// <summary>The right one alone, for instance because the left one cannot move.</summary>
    Right = 2,

    /// <summary>The left one alone.</summary>
    Left = 3,
}

/// <summary>The outcome of the swinging-flashlight test at one dwell.</summary>
/// <param name="Dwell">The block: <see cref="Block.SwingShort"/> or <see cref="Block.SwingLong"/>.</param>
/// <param name="Finding">What it showed; the eye named is the one that was lit.</param>
/// <param name="Observed">Whose pupils were watched: not the same thing as the eye that was lit.</param>
public sealed record SwingOutcome(Block Dwell, SwingFinding Finding, PupilsObserved Observed) : Judgement
{
    /// <summary>The block: short or long dwell.</summary>
    public Block Dwell { get; init; } =
        Dwell is Block.SwingShort or Block.SwingLong
            ? Dwell
            : throw new ArgumentOutOfRangeException(
                nameof(Dwell),
                Dwell,
                "A swinging outcome belongs to the short or the long dwell."
            );

    /// <summary>What it showed.</summary>
    public SwingFinding Finding { get; init; } = Checked(Finding, nameof(Finding));

    /// <summary>Whose pupils were watched.</summary>
    public PupilsObserved Observed { get; init; } = Checked(Observed, nameof(Observed));
}

/// <summary>What can be said of a swinging finding without knowing more.</summary>
public static class SwingFindings
{
    /// <summary>The finding that one eye is the worse one.</summary>
    /// <param name="eye">That eye.</param>
    /// <returns>The finding.</returns>
    public static SwingFinding Worse(Eye eye) => eye == Eye.Right ? SwingFinding.RightWorse : SwingFinding.LeftWorse;

    /// <summary>The worse eye of a finding.</summary>
    /// <param name="finding">The finding.</param>
    /// <returns>The eye; null if both are alike or nothing could be seen.</returns>
    public static Eye? WorseEye(this SwingFinding finding) =>
        finding switch
        {
            SwingFinding.RightWorse => Eye.Right,
            SwingFinding.LeftWorse => Eye.Left,
            _ => null,
        };
}
