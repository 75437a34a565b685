using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench;

/// <summary>How one block of stimuli was timed, over one or many exams.</summary>
/// <param name="Block">The block.</param>
/// <param name="Dwell">How long each eye was lit; null for an eye that never was.</param>
/// <param name="GapBefore">How long no lamp was on before each eye was lit, within one stay in the block; null where that never came.</param>
public sealed record StimulusTimes(Block Block, PerEye<MeasuredTime?> Dwell, PerEye<MeasuredTime?> GapBefore)
{
    /// <summary>
    /// How much longer the right eye was lit than the left, in ms, with its expanded uncertainty for the factor 2; null unless both were.
    /// A difference imitates a defect as unequal lamps do.
    /// </summary>
    public (double Milliseconds, double ExpandedMilliseconds)? Asymmetry =>
        Dwell is { Right: { } right, Left: { } left }
            ? (
                right.MeanMilliseconds - left.MeanMilliseconds,
                2 * double.Hypot(right.UncertaintyMilliseconds, left.UncertaintyMilliseconds)
            )
            : null;

    /// <summary>Gathers the stimuli of one block.</summary>
    /// <param name="stimuli">Stimuli of any exams of one instrument; those of other blocks, and broken ones, do not count.</param>
    /// <param name="block">The block.</param>
    /// <returns>The times.</returns>
    public static StimulusTimes Of(IEnumerable<Stimulus> stimuli, Block block)
    {
        ArgumentNullException.ThrowIfNull(stimuli);
        var own = stimuli
            .Where(s => s.Block == block && s.End is StimulusEnd.Complete or StimulusEnd.CutShort)
            .ToArray();
        return new(block, Times(own, s => s.DwellMilliseconds), Times(own, s => s.GapMilliseconds));
    }

    private static PerEye<MeasuredTime?> Times(Stimulus[] own, Func<Stimulus, long?> time)
    {
        return new() { Right = OfEye(Eye.Right), Left = OfEye(Eye.Left) };

        MeasuredTime? OfEye(Eye eye) => MeasuredTime.Of([.. own.Where(s => s.Eye == eye).Select(time).OfType<long>()]);
    }
}
