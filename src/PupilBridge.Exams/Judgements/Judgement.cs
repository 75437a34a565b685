using System.Text.Json.Serialization;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Judgements;

/// <summary>What a person judged about the pupils: a closed family, nothing else can be judged.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "judged")]
[JsonDerivedType(typeof(ShapeJudgement), "shape")]
[JsonDerivedType(typeof(DirectResponse), "direct")]
[JsonDerivedType(typeof(ConsensualResponse), "consensual")]
[JsonDerivedType(typeof(SwingOutcome), "swing")]
[JsonDerivedType(typeof(NearResponse), "near")]
[JsonDerivedType(typeof(SlowToDilate), "slow-to-dilate")]
public abstract record Judgement
{
    private protected Judgement() { }

    internal static Eye Checked(Eye eye, string parameter) =>
        eye is Eye.Right or Eye.Left
            ? eye
            : throw new ArgumentOutOfRangeException(parameter, eye, "An eye is right or left.");

    internal static T Checked<T>(T value, string parameter)
        where T : struct, Enum =>
        Enum.IsDefined(value)
            ? value
            : throw new ArgumentOutOfRangeException(parameter, value, $"There is no such {typeof(T).Name}.");
}

/// <summary>The form of a pupil.</summary>
public enum PupilShape
{
    /// <summary>Round.</summary>
    Round = 1,

    /// <summary>Not round.</summary>
    NotRound = 2,

    /// <summary>The pupil could not be seen; this says nothing about its form.</summary>
    CouldNotSee = 3,
}

/// <summary>The form of one eye's pupil.</summary>
/// <param name="Eye">Which eye.</param>
/// <param name="Shape">Its form.</param>
public sealed record ShapeJudgement(Eye Eye, PupilShape Shape) : Judgement
{
    /// <summary>Which eye.</summary>
    public Eye Eye { get; init; } = Checked(Eye, nameof(Eye));

    /// <summary>Its form.</summary>
    public PupilShape Shape { get; init; } = Checked(Shape, nameof(Shape));
}

/// <summary>How the pupil of the lit eye itself responds.</summary>
/// <param name="Eye">The eye that was lit and whose pupil was observed.</param>
/// <param name="Grade">How strongly.</param>
public sealed record DirectResponse(Eye Eye, Grade Grade) : Judgement
{
    /// <summary>The eye that was lit and whose pupil was observed.</summary>
    public Eye Eye { get; init; } = Checked(Eye, nameof(Eye));
}

/// <summary>How the pupil of the eye that is not lit responds.</summary>
/// <param name="Lit">The eye that was lit.</param>
/// <param name="Observed">The eye whose pupil was observed: the fellow of the lit one.</param>
/// <param name="Grade">How strongly.</param>
public sealed record ConsensualResponse(Eye Lit, Eye Observed, Grade Grade) : Judgement
{
    /// <summary>The eye that was lit.</summary>
    public Eye Lit { get; init; } = Checked(Lit, nameof(Lit));

    /// <summary>The eye whose pupil was observed: the fellow of the lit one.</summary>
    public Eye Observed { get; init; } =
        Observed == Lit.Fellow()
            ? Observed
            : throw new ArgumentOutOfRangeException(
                nameof(Observed),
                Observed,
                "A consensual response is observed in the eye that is not lit."
            );
}

/// <summary>How one eye's pupil responds to looking near.</summary>
/// <param name="Eye">Which eye.</param>
/// <param name="Grade">How strongly.</param>
public sealed record NearResponse(Eye Eye, Grade Grade) : Judgement
{
    /// <summary>Which eye.</summary>
    public Eye Eye { get; init; } = Checked(Eye, nameof(Eye));
}

/// <summary>One eye's pupil was slower to widen than its fellow when light went away: an observation without a limit.</summary>
/// <param name="Eye">The slower one.</param>
public sealed record SlowToDilate(Eye Eye) : Judgement
{
    /// <summary>The slower one.</summary>
    public Eye Eye { get; init; } = Checked(Eye, nameof(Eye));
}
