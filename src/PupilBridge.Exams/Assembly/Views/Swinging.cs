using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What the swinging-flashlight test adds up to.</summary>
public enum SwingState
{
    /// <summary>No dwell was judged.</summary>
    NotExamined = 1,

    /// <summary>It was looked for and could not be seen.</summary>
    CouldNotSee = 2,

    /// <summary>Both eyes alike at every dwell judged, with complete and timely alternations: no RAPD seen.</summary>
    NoneSeen = 3,

    /// <summary>Both eyes alike, and the stimuli were not surely timely: nothing is claimed.</summary>
    AlikeUntimely = 4,

    /// <summary>A relative afferent pupillary defect of one eye was seen.</summary>
    Seen = 5,

    /// <summary>Outcomes disagree; a repeat is offered.</summary>
    Disagree = 6,

    /// <summary>Both eyes alike, and the state of an eye makes the test unreliable: nothing is claimed.</summary>
    AlikeUnreliable = 7,

    /// <summary>
    /// Both eyes alike, and a pupil that was watched does not respond to light at all, so that it could show no difference:
    /// nothing is claimed.
    /// </summary>
    AlikeUnresponsive = 8,
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
    Entries.JournalSequence? Sequence,
    int Run,
    bool IsTimely,
    bool DiffersFromBefore
);

/// <summary>The swinging-flashlight test of an exam as a whole.</summary>
/// <param name="State">What it adds up to.</param>
/// <param name="Eye">The eye of the defect seen; null if none was.</param>
/// <param name="ShortDwell">The short dwell.</param>
/// <param name="LongDwell">The long dwell.</param>
public sealed record Swinging(SwingState State, Eye? Eye, DwellReading ShortDwell, DwellReading LongDwell)
{
    /// <summary>Both dwells, the short one first.</summary>
    public ImmutableArray<DwellReading> Dwells => [ShortDwell, LongDwell];

    /// <summary>Reads the test out of an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The test.</returns>
    public static Swinging Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var (shortDwell, longDwell) = (Read(exam, Block.SwingShort), Read(exam, Block.SwingLong));
        var (state, eye) = Sum(exam, [shortDwell, longDwell]);
        return new(state, eye, shortDwell, longDwell);
    }

    private static (SwingState State, Eye? Eye) Sum(Exam exam, ImmutableArray<DwellReading> dwells)
    {
        var judged = dwells.Where(d => d.Outcome is not null).ToImmutableArray();
        if (judged.IsEmpty)
            return (SwingState.NotExamined, null);
        var seen = judged.Where(d => d.Outcome!.Finding != SwingFinding.CouldNotSee).ToImmutableArray();
        if (seen.IsEmpty)
            return (SwingState.CouldNotSee, null);
        var findings = seen.Select(d => d.Outcome!.Finding).Distinct().ToImmutableArray();
        if (findings.Length > 1 || seen.Any(d => d.DiffersFromBefore))
            return (SwingState.Disagree, null);
        if (findings[0].WorseEye() is { } eye)
            return (SwingState.Seen, eye);
        if (seen.Any(d => EyeEffects.OnSwinging(exam, d.Outcome!.Observed)))
            return (SwingState.AlikeUnreliable, null);
        if (seen.Any(d => IsUnresponsive(exam, d.Outcome!.Observed)))
            return (SwingState.AlikeUnresponsive, null);
        return (seen.All(d => d.IsTimely) ? SwingState.NoneSeen : SwingState.AlikeUntimely, null);
    }

    private static bool IsUnresponsive(Exam exam, PupilsObserved watched)
    {
        bool HasNone(Eye eye) =>
            CurrentJudgements.Direct(exam, eye)?.Judgement is DirectResponse { Grade.HalfSteps: 0 };
        return (watched != PupilsObserved.Left && HasNone(Instrument.Eye.Right))
            || (watched != PupilsObserved.Right && HasNone(Instrument.Eye.Left));
    }

    private static DwellReading Read(Exam exam, Block dwell)
    {
        var judged = CurrentJudgements.Swings(exam, dwell);
        if (judged.IsEmpty)
            return new(dwell, null, null, 0, false, false);
        var last = judged[^1];
        var outcome = (SwingOutcome)last.Judgement;
        var run = BlockRuns.Of(exam, dwell).FirstOrDefault(r => r.Number == last.Run);
        var isTimely = run is { HasReachedCount: true, IsTimely: true };
        var before = judged
            .Take(judged.Length - 1)
            .Select(j => ((SwingOutcome)j.Judgement).Finding)
            .LastOrDefault(f => f != SwingFinding.CouldNotSee);
        var differs = before != 0 && outcome.Finding != SwingFinding.CouldNotSee && before != outcome.Finding;
        return new(dwell, outcome, last.Sequence, last.Run, isTimely, differs);
    }
}
