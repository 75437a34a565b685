using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>Why what was seen at a dwell claims nothing.</summary>
public enum SwingDoubt
{
    /// <summary>Nothing speaks against it, or nothing was seen.</summary>
    None = 0,

    /// <summary>The run judged before it showed something else, or another examiner saw something else in the same run.</summary>
    Disagree = 1,

    /// <summary>Light does not reach both eyes alike, or the state of an eye holds a pupil that was watched.</summary>
    EyeStatus = 2,

    /// <summary>
    /// A pupil that was watched has no direct response and was not seen to move by light in the fellow eye. Watched, a pupil that
    /// does not move looks worse, or alike, whatever the nerve does; only the working one tells
    /// (Community Eye Health J 2016, PMC5365042, figure 4).
    /// </summary>
    WatchedPupilStill = 3,

    /// <summary>The patient looked near.</summary>
    NearFixation = 4,

    /// <summary>Both eyes alike, though a watched pupil has no direct response and moves by light in the fellow eye.</summary>
    Contradiction = 5,

    /// <summary>Both eyes alike, and the alternations were not complete and surely timely.</summary>
    Untimely = 6,
}

/// <summary>What was judged at one dwell.</summary>
/// <param name="Dwell">The short or the long one.</param>
/// <param name="Outcome">The outcome of the latest run that was judged; null if none was.</param>
/// <param name="Sequence">The entry that judged it.</param>
/// <param name="Run">Which run it was, from 1; 0 if none.</param>
/// <param name="IsTimely">Whether that run's alternations were complete and timely.</param>
/// <param name="DiffersFromBefore">Whether the run judged before it had another outcome.</param>
public sealed record DwellReading(
    Block Dwell,
    SwingOutcome? Outcome,
    JournalSequence? Sequence,
    int Run,
    bool IsTimely,
    bool DiffersFromBefore
)
{
    /// <summary>Whether another person judged the same run otherwise, and neither answer was taken back.</summary>
    public bool DiffersFromAnother { get; init; }

    /// <summary>Why what was seen claims nothing.</summary>
    public SwingDoubt Doubt { get; init; }

    /// <summary>Whether there is an outcome, and not that it could not be seen.</summary>
    public bool WasSeen => Outcome is { Finding: not SwingFinding.CouldNotSee };

    internal static DwellReading Of(Exam exam, Block dwell)
    {
        var judged = CurrentJudgements.Swings(exam, dwell);
        if (judged.IsEmpty)
            return new(dwell, null, null, 0, false, false);
        var last = judged[^1];
        var outcome = (SwingOutcome)last.Judgement;
        var run = BlockRuns.Of(exam, dwell).FirstOrDefault(r => r.Number == last.Run);
        var isTimely = run is { HasReachedCount: true, IsTimely: true };
        var isStill = PupilMotions.WatchedMayBeFixed(exam, outcome.Observed);
        var before = judged
            .Take(judged.Length - 1)
            .Select(j => (SwingOutcome)j.Judgement)
            // A run that is repeated because a still pupil was watched is no second opinion on what the working one shows.
            .Where(o => isStill || !PupilMotions.WatchedMayBeFixed(exam, o.Observed))
            .LastOrDefault(o => o.Finding != SwingFinding.CouldNotSee);
        var differs =
            before is not null && outcome.Finding != SwingFinding.CouldNotSee && before.Finding != outcome.Finding;
        var another = Contradictions
            .Others(exam, last)
            .Select(j => (SwingOutcome)j.Judgement)
            .Where(o => isStill || !PupilMotions.WatchedMayBeFixed(exam, o.Observed))
            .Any(o => outcome.Finding != SwingFinding.CouldNotSee && o.Finding != outcome.Finding);
        var reading = new DwellReading(dwell, outcome, last.Sequence, last.Run, isTimely, differs)
        {
            DiffersFromAnother = another,
        };
        return reading.WasSeen ? reading with { Doubt = DoubtOf(exam, reading, last.Fixation) } : reading;
    }

    private static SwingDoubt DoubtOf(Exam exam, DwellReading reading, Fixation? fixation)
    {
        var outcome = reading.Outcome!;
        if (reading.DiffersFromBefore || reading.DiffersFromAnother)
            return SwingDoubt.Disagree;
        if (EyeEffects.OnSwinging(exam, outcome.Observed))
            return SwingDoubt.EyeStatus;
        if (PupilMotions.WatchedMayBeFixed(exam, outcome.Observed))
            return SwingDoubt.WatchedPupilStill;
        if (fixation == Fixation.Near)
            return SwingDoubt.NearFixation;
        if (outcome.Finding != SwingFinding.Alike)
            return SwingDoubt.None;
        if (PupilMotions.Watched(outcome.Observed).Any(eye => HasNoDirectResponse(exam, eye)))
            return SwingDoubt.Contradiction;
        return reading.IsTimely ? SwingDoubt.None : SwingDoubt.Untimely;
    }

    private static bool HasNoDirectResponse(Exam exam, Eye eye) => Contradictions.PoorestDirect(exam, eye) == 0;
}
