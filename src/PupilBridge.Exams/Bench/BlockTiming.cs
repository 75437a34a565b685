using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench;

/// <summary>How one eye's stimuli of one block were timed, against the profile.</summary>
/// <param name="Block">The block.</param>
/// <param name="Eye">The eye that was lit.</param>
/// <param name="Dwell">How long it was lit; null if it never was.</param>
/// <param name="DwellRange">What the profile allows, in ms; null where it asks for nothing.</param>
/// <param name="DwellVerdict">How the worst single dwell stands to that.</param>
/// <param name="Gap">How long no lamp was on before it; null where that never came.</param>
/// <param name="GapRange">What the profile allows, in ms; null where it asks for nothing.</param>
/// <param name="GapVerdict">How the worst single gap stands to that.</param>
public sealed record EyeTiming(
    Block Block,
    Eye Eye,
    MeasuredTime? Dwell,
    TimeRange? DwellRange,
    TimingVerdict DwellVerdict,
    MeasuredTime? Gap,
    TimeRange? GapRange,
    TimingVerdict GapVerdict
);

/// <summary>What a time may be.</summary>
/// <param name="LeastMilliseconds">The shortest, in ms.</param>
/// <param name="MostMilliseconds">The longest, in ms.</param>
public sealed record TimeRange(double LeastMilliseconds, double MostMilliseconds);

/// <summary>The timing of an instrument's stimuli, over one or many sittings.</summary>
public static class BlockTiming
{
    /// <summary>A lamp that goes off as near to a turn of the dial went off by it, in ms. Ours.</summary>
    public const int BreakWithinMilliseconds = 50;

    private static readonly Block[] Blocks = [Block.Direct, Block.SwingShort, Block.SwingLong];

    /// <summary>Looks at the stimuli of sittings, block by block and eye by eye.</summary>
    /// <param name="sittings">Exams or bench runs of one instrument.</param>
    /// <param name="profile">What is asked for.</param>
    /// <returns>One for each block and eye that was lit at all.</returns>
    public static IReadOnlyList<EyeTiming> Of(IReadOnlyList<Exam> sittings, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(sittings);
        ArgumentNullException.ThrowIfNull(profile);
        return
        [
            .. Blocks
                .Select(block => StimulusTimes.Of(sittings.SelectMany(Timed), block))
                .SelectMany(times => new[] { Eye.Right, Eye.Left }.Select(eye => Of(times, eye, sittings, profile)))
                .Where(timing => timing.Dwell is not null),
        ];
    }

    /// <summary>How much longer the right eye was lit than the left in each block, in ms, with its expanded uncertainty.</summary>
    /// <param name="sittings">Exams or bench runs of one instrument.</param>
    /// <returns>One for each block in which both were.</returns>
    public static IReadOnlyList<(Block Block, double Milliseconds, double ExpandedMilliseconds)> Asymmetries(
        IReadOnlyList<Exam> sittings
    )
    {
        ArgumentNullException.ThrowIfNull(sittings);
        return
        [
            .. Blocks
                .Select(block => (block, StimulusTimes.Of(sittings.SelectMany(Timed), block).Asymmetry))
                .Where(one => one.Asymmetry is not null)
                .Select(one =>
                    (one.block, one.Asymmetry!.Value.Milliseconds, one.Asymmetry!.Value.ExpandedMilliseconds)
                ),
        ];
    }

    private static EyeTiming Of(StimulusTimes times, Eye eye, IReadOnlyList<Exam> sittings, Profile profile)
    {
        // A gap within a train of one eye is asked for to be so long; the way over to the other eye only has a longest.
        var gaps = MeasuredTime.Of([
            .. sittings
                .SelectMany(Timed)
                .Where(s => s.Block == times.Block && s.Eye == eye && s.GapVerdict != TimingVerdict.NotJudged)
                .Select(s => s.GapMilliseconds)
                .OfType<long>(),
        ]);
        var (dwell, gap) = (DwellRange(times.Block, profile), GapRange(times.Block, profile));
        return new(
            times.Block,
            eye,
            times.Dwell[eye],
            dwell,
            Verdict(times.Dwell[eye], dwell),
            gaps,
            gap,
            Verdict(gaps, gap)
        );
    }

    private static TimingVerdict Verdict(MeasuredTime? time, TimeRange? range) =>
        time is null || range is null
            ? TimingVerdict.NotJudged
            : time.Against(
                // No time is below 0: a least of 0 asks for nothing, and a tick's millisecond must not make it doubtful.
                range.LeastMilliseconds > 0
                    ? range.LeastMilliseconds
                    : double.MinValue,
                range.MostMilliseconds
            );

    /// <summary>The stimuli that tell of the instrument: not those that a person broke off by the dial or by switching off.</summary>
    private static IEnumerable<Stimulus> Timed(Exam sitting)
    {
        Moment[] breaks =
        [
            .. sitting.Dial.Where(move => !move.BySelf).Select(move => move.When),
            .. sitting.Closing is { Reason: ClosingReason.SwitchedOff } off ? [off.When] : Array.Empty<Moment>(),
        ];
        return sitting.Stimuli.Where(stimulus =>
            stimulus is not { End: StimulusEnd.CutShort, Off: { } end }
            || !breaks.Any(moment => Math.Abs(moment.MillisecondsSince(end)) <= BreakWithinMilliseconds)
        );
    }

    private static TimeRange? DwellRange(Block block, Profile profile) =>
        block switch
        {
            Block.Direct => Around(profile.Direct.DwellMilliseconds, profile),
            Block.SwingShort => Around(profile.SwingShort.DwellMilliseconds, profile),
            Block.SwingLong => Around(profile.SwingLong.DwellMilliseconds, profile),
            _ => null,
        };

    private static TimeRange? GapRange(Block block, Profile profile) =>
        block switch
        {
            Block.Direct => Around(profile.Direct.GapMilliseconds, profile),
            Block.SwingShort => new(0, profile.SwingShort.MaxGapMilliseconds),
            Block.SwingLong => new(0, profile.SwingLong.MaxGapMilliseconds),
            _ => null,
        };

    private static TimeRange Around(int nominal, Profile profile)
    {
        var slack = nominal * (profile.DwellTolerancePercent / 100.0);
        return new(nominal - slack, nominal + slack);
    }
}
