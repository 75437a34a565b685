using System.Globalization;
using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Oracle;

/// <summary>
/// An event's kind and fields as they must stand on the wire, written here from the protocol's text and not by the
/// product's encoder, so that the two check each other.
/// </summary>
public static class TruthText
{
    /// <summary>Writes an event's kind and fields.</summary>
    /// <param name="happened">The event.</param>
    /// <returns>Such as <c>REST,R,12340</c>.</returns>
    public static string Of(in InstrumentEvent happened) =>
        happened.Kind switch
        {
            InstrumentEventKind.ModeChanged =>
                $"MODE,{Mode(happened.Mode)},{Block(happened.Block)},{(happened.Cause == ModeCause.Dial ? "DIAL" : "SELF")}",
            InstrumentEventKind.EdgeMarked =>
                $"EDGE,{Eye(happened.Eye)},{(happened.Edge == PupilEdge.Nasal ? 'N' : 'T')},{Number(happened.Position.Value)}",
            InstrumentEventKind.ScaleAtRest => $"REST,{Eye(happened.Eye)},{Number(happened.Position.Value)}",
            InstrumentEventKind.LampSwitched =>
                $"LAMP,{Eye(happened.Eye)},{(happened.LampOn ? "ON" : "OFF")},{Number(happened.LampLevelPercent)}",
            InstrumentEventKind.LampOutput => $"OUTPUT,{Eye(happened.Eye)},{Number(happened.LampMillilux)}",
            InstrumentEventKind.RoomLight when happened.Room == RoomLightLevel.Measured =>
                $"ROOM,LUX,{Number(happened.RoomMillilux)}",
            InstrumentEventKind.RoomLight => happened.Room == RoomLightLevel.Bright ? "ROOM,BRIGHT" : "ROOM,DIM",
            InstrumentEventKind.FixationChanged => happened.Fixation == FixationDistance.Near ? "FIX,NEAR" : "FIX,FAR",
            InstrumentEventKind.LensMoved => happened.LensIn ? "LENS,IN" : "LENS,OUT",
            InstrumentEventKind.SwitchedOff => "OFF",
            InstrumentEventKind.FaultReported => $"FAULT,{Number(happened.FaultCode)},{happened.FaultText}",
            _ => throw new ArgumentException($"An instrument's body does not make events of the kind {happened.Kind}."),
        };

    private static char Eye(Eye eye) => eye == Instrument.Eye.Right ? 'R' : 'L';

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Mode(InstrumentMode mode) =>
        mode switch
        {
            InstrumentMode.Idle => "IDLE",
            InstrumentMode.Measure => "MEASURE",
            InstrumentMode.Sequence => "SEQUENCE",
            _ => "HOLD",
        };

    private static string Block(Block block) =>
        block switch
        {
            Instrument.Block.Direct => "DIRECT",
            Instrument.Block.SwingShort => "SWINGSHORT",
            Instrument.Block.SwingLong => "SWINGLONG",
            Instrument.Block.Near => "NEAR",
            _ => "-",
        };
}
