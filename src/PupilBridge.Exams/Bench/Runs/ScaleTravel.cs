using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>How wide a thing an instrument's scales can measure.</summary>
public static class ScaleTravel
{
    /// <summary>
    /// The widest difference of two positions that both scales can show. With mark keys it is a scale's whole way; without, the nasal edge
    /// stands at home, and only the way from there to the temporal end is left.
    /// </summary>
    /// <param name="instrument">What the instrument said of itself.</param>
    /// <returns>That of the shorter of the two scales.</returns>
    public static Micrometres Of(InstrumentFacts instrument)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        var isMarking = instrument.Abilities.HasFlag(InstrumentAbilities.MarkKeys);
        var (right, left) = (Of(instrument.Scales.Right, isMarking), Of(instrument.Scales.Left, isMarking));
        return right < left ? right : left;
    }

    private static Micrometres Of(ScaleDescription scale, bool isMarking) =>
        isMarking ? scale.Highest - scale.Lowest
        : scale.Direction == ScaleDirection.Nasal ? scale.Home - scale.Lowest
        : scale.Highest - scale.Home;
}
