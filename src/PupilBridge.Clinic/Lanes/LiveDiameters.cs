using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// The diameter that a scale's present position would give if it were taken now. For display alone: what counts is made by the
/// assembly of exams from recorded positions.
/// </summary>
internal static class LiveDiameters
{
    /// <summary>The diameter as read, not corrected.</summary>
    /// <returns>Null where the position would give none.</returns>
    public static Micrometres? Of(LaneSight sight, Eye eye)
    {
        if (sight.Live?.Scales[eye].Position is not { } position || !IsMeasuring(sight))
        {
            return null;
        }

        return
            sight.Lane?.Identity?.Scales[eye] is { Direction: not ScaleDirection.None } scale
            && Pair(sight, eye, scale, position) is { } pair
            && IsPupil(pair.Difference, sight.Profile.Captures)
            ? pair.Difference
            : null;
    }

    private static bool IsMeasuring(LaneSight sight) =>
        !LaneEyes.IsLit(sight) && LaneBoards.Dial(sight).Mode is not (InstrumentMode.Sequence or InstrumentMode.Hold);

    /// <summary>
    /// With mark keys the position goes with the edge that is marked already; without, with home, where the nasal edge was set by moving
    /// the whole instrument.
    /// </summary>
    private static EdgePair? Pair(LaneSight sight, Eye eye, ScaleDescription scale, Micrometres position)
    {
        if (!sight.Abilities.HasFlag(InstrumentAbilities.MarkKeys))
        {
            return new EdgePair(scale.Home, position, scale.Direction);
        }

        return MarksOf(sight, eye) switch
        {
            { Nasal: { } nasal } => new EdgePair(nasal.Position, position, scale.Direction),
            { Temporal: { } temporal } => new EdgePair(position, temporal.Position, scale.Direction),
            _ => null,
        };
    }

    private static MarkedEdges? MarksOf(LaneSight sight, Eye eye) =>
        sight.Lane?.Marks[eye] is { } marks && marks.Exam == sight.Exam?.Id ? marks : null;

    private static bool IsPupil(Micrometres difference, CaptureRules rules) =>
        difference >= rules.SmallestDiameter && difference <= rules.LargestDiameter;
}
