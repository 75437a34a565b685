using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Which events are about a patient's eyes, so that they need an exam and can open one. All others tell of conditions, which
/// hold for the instrument whether or not an exam is open.
/// </summary>
internal static class Evidence
{
    public static bool Is(LaneState lane, InstrumentEvent happened) =>
        happened.Kind switch
        {
            InstrumentEventKind.EdgeMarked => true,
            InstrumentEventKind.LampSwitched => happened.LampOn,
            InstrumentEventKind.ScaleAtRest => lane.Identity is { } known
                && !ScaleHome.IsHome(known.Scales[happened.Eye], happened.Position),
            _ => false,
        };

    /// <summary>Whether it is about sizes rather than about light.</summary>
    public static bool IsMeasuring(LaneState lane, InstrumentEvent happened) =>
        happened.Kind != InstrumentEventKind.LampSwitched && Is(lane, happened);

    /// <summary>Whether it can begin an exam where the dial has stayed: something that tells of the exam's conditions.</summary>
    public static bool IsCondition(InstrumentEvent happened) =>
        happened.Kind
            is InstrumentEventKind.RoomLight
                or InstrumentEventKind.FixationChanged
                or InstrumentEventKind.LensMoved;
}

/// <summary>Where a scale rests between measurements.</summary>
internal static class ScaleHome
{
    /// <summary>Whether a position is home, to within one step of the scale.</summary>
    public static bool IsHome(ScaleDescription scale, Micrometres position) =>
        Math.Abs((position - scale.Home).Value) <= scale.Resolution.Value;
}
