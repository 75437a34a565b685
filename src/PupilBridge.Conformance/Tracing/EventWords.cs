using System.Globalization;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Tracing;

/// <summary>What an event says, in words.</summary>
internal static class EventWords
{
    /// <summary>The event with its number and tick.</summary>
    public static string Of(in InstrumentEvent happened) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"event {happened.Sequence} of boot {happened.Boot}, tick {happened.Tick.Milliseconds} ms: {What(happened)}"
        );

    private static string What(in InstrumentEvent e) =>
        e.Kind switch
        {
            InstrumentEventKind.ModeChanged =>
                $"mode {FieldNames.Of(e.Mode)}, {FieldNames.Of(e.Block)}, {(e.Cause == ModeCause.Dial ? "by the dial" : "by itself")}",
            InstrumentEventKind.EdgeMarked =>
                $"{FieldNames.Of(e.Eye)}, {(e.Edge == PupilEdge.Nasal ? "nasal" : "temporal")} edge marked at {FieldNames.Of(e.Position)}",
            InstrumentEventKind.ScaleAtRest => $"{FieldNames.Of(e.Eye)}, scale at rest at {FieldNames.Of(e.Position)}",
            InstrumentEventKind.LampSwitched =>
                $"{FieldNames.Of(e.Eye)}, lamp {(e.LampOn ? "on" : "off")} at {Number(e.LampLevelPercent)} %",
            InstrumentEventKind.LampOutput => string.Create(
                CultureInfo.InvariantCulture,
                $"{FieldNames.Of(e.Eye)}, lamp measured at {e.LampMillilux / 1000.0:0.###} lx"
            ),
            InstrumentEventKind.RoomLight => Room(e),
            InstrumentEventKind.FixationChanged => $"fixation {(e.Fixation == FixationDistance.Near ? "near" : "far")}",
            InstrumentEventKind.LensMoved => $"viewing lens {(e.LensIn ? "in" : "out")}",
            InstrumentEventKind.SwitchedOff => "switched off, the last event of this boot",
            InstrumentEventKind.FaultReported => $"fault {Number(e.FaultCode)}: {e.FaultText}",
            InstrumentEventKind.EventsLost => $"events {Number(e.FirstLost)} to {Number(e.Sequence)} are lost",
            InstrumentEventKind.Unreadable => "a known kind with fields that cannot be read; a host keeps it as it is",
            _ => "a kind that this version does not know; a host keeps it as it is",
        };

    private static string Room(in InstrumentEvent e) =>
        e.Room switch
        {
            RoomLightLevel.Measured => string.Create(
                CultureInfo.InvariantCulture,
                $"room at {e.RoomMillilux / 1000.0:0.###} lx"
            ),
            RoomLightLevel.Bright => "room bright",
            _ => "room dim",
        };

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
