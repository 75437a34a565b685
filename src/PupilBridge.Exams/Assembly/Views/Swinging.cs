using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>The swinging-flashlight test of an exam as a whole.</summary>
/// <param name="State">What it adds up to.</param>
/// <param name="Eye">The eye of the defect seen; null if none was, or none is claimed.</param>
/// <param name="ShortDwell">The short dwell.</param>
/// <param name="LongDwell">The long dwell.</param>
public sealed record Swinging(SwingState State, Eye? Eye, DwellReading ShortDwell, DwellReading LongDwell)
{
    /// <summary>Both dwells, the short one first.</summary>
    public ImmutableArray<DwellReading> Dwells => [ShortDwell, LongDwell];

    /// <summary>The eye that looked worse at every dwell that was seen, claimed or not; null if both were alike or outcomes disagree.</summary>
    public Eye? WorseEye =>
        State == SwingState.Disagree
            ? null
            : Dwells.Select(d => d.Outcome?.Finding.WorseEye()).FirstOrDefault(e => e is not null);

    /// <summary>Why what was seen claims nothing; none where it claims something or nothing was seen.</summary>
    public SwingDoubt Doubt =>
        State == SwingState.Disagree
            ? SwingDoubt.Disagree
            : Dwells.Select(d => d.Doubt).FirstOrDefault(d => d != SwingDoubt.None);

    /// <summary>The eyes whose pupils were watched and are not known to move, right before left.</summary>
    public ValueList<Eye> Still { get; init; } = [];

    /// <summary>The one eye whose pupil moves while its fellow's may not: the pupil to watch. Null where there is none.</summary>
    public Eye? Working { get; init; }

    /// <summary>Reads the test out of an exam. Chart, record, criteria and reasons before drops all say what is decided here.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The test.</returns>
    public static Swinging Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var (shortDwell, longDwell) = (DwellReading.Of(exam, Block.SwingShort), DwellReading.Of(exam, Block.SwingLong));
        ImmutableArray<DwellReading> seen = [.. new[] { shortDwell, longDwell }.Where(d => d.WasSeen)];
        var watched = seen.SelectMany(d => PupilMotions.Watched(d.Outcome!.Observed)).Distinct();
        var state = seen.IsEmpty ? Unseen(shortDwell, longDwell) : Sum(seen);
        return new(state, state == SwingState.Seen ? seen[0].Outcome!.Finding.WorseEye() : null, shortDwell, longDwell)
        {
            Still = [.. watched.Where(eye => PupilMotions.MayBeFixed(exam, eye)).Order()],
            Working = PupilMotions.Working(exam),
        };
    }

    private static SwingState Unseen(params ReadOnlySpan<DwellReading> dwells)
    {
        foreach (var dwell in dwells)
        {
            if (dwell.Outcome is not null)
                return SwingState.CouldNotSee;
        }

        return SwingState.NotExamined;
    }

    private static SwingState Sum(ImmutableArray<DwellReading> seen)
    {
        var finding = seen[0].Outcome!.Finding;
        if (seen.Any(d => d.Outcome!.Finding != finding || d.Doubt == SwingDoubt.Disagree))
            return SwingState.Disagree;
        var doubt = seen.Select(d => d.Doubt).FirstOrDefault(d => d != SwingDoubt.None);
        return finding == SwingFinding.Alike ? Alike(doubt) : Worse(doubt);
    }

    private static SwingState Worse(SwingDoubt doubt) =>
        doubt switch
        {
            SwingDoubt.None => SwingState.Seen,
            SwingDoubt.EyeStatus => SwingState.WorseUnreliable,
            SwingDoubt.WatchedPupilStill => SwingState.WorseUnresponsive,
            _ => SwingState.WorseNearFixation,
        };

    private static SwingState Alike(SwingDoubt doubt) =>
        doubt switch
        {
            SwingDoubt.None => SwingState.NoneSeen,
            SwingDoubt.EyeStatus => SwingState.AlikeUnreliable,
            SwingDoubt.WatchedPupilStill => SwingState.AlikeUnresponsive,
            SwingDoubt.NearFixation => SwingState.AlikeNearFixation,
            SwingDoubt.Contradiction => SwingState.AlikeContradicted,
            _ => SwingState.AlikeUntimely,
        };
}
