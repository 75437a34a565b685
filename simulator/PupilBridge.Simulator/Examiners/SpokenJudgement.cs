using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Examiners;

/// <summary>
/// What a simulated examiner says, in the simulator's own words; whoever records it translates. It says what was seen at
/// the simulated eyes, never what is true of them.
/// </summary>
public abstract record SpokenJudgement
{
    private SpokenJudgement() { }

    /// <summary>The outline of a pupil.</summary>
    /// <param name="Eye">The eye observed.</param>
    /// <param name="Shape">The outline.</param>
    public sealed record ShapeSeen(Eye Eye, PupilShape Shape) : SpokenJudgement;

    /// <summary>The response to light, 0 (none) to 4 (large).</summary>
    /// <param name="Lit">The eye that was lit.</param>
    /// <param name="Observed">The eye whose pupil was watched: the same for the direct response, the fellow for the consensual.</param>
    /// <param name="Grade">0 to 4.</param>
    public sealed record LightGraded(Eye Lit, Eye Observed, int Grade) : SpokenJudgement;

    /// <summary>The outcome of a swinging block.</summary>
    /// <param name="Block">The short or the long one.</param>
    /// <param name="Affected">The eye that narrows less (short) or lets go (long); null if no difference was seen.</param>
    public sealed record SwingSeen(Block Block, Eye? Affected) : SpokenJudgement;

    /// <summary>The near response, 0 (none) to 4 (large).</summary>
    /// <param name="Eye">The eye observed.</param>
    /// <param name="Grade">0 to 4.</param>
    public sealed record NearGraded(Eye Eye, int Grade) : SpokenJudgement;

    /// <summary>The exam is ready for review.</summary>
    public sealed record Ready : SpokenJudgement;
}
