using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
using ChartWords = PupilBridge.Exams.Notation.Words;

namespace PupilBridge.Clinic.Records;

/// <summary>An instrument's event in a sentence, read anew from its line.</summary>
internal static class EventWords
{
    /// <summary>The sentence; for a line that cannot be read, that it is kept word for word.</summary>
    public static string Of(string rawLine) =>
        Ascii.IsValid(rawLine)
        && InstrumentLineDecoder.TryDecode(Encoding.ASCII.GetBytes(rawLine), out var line, out _)
        && line.Kind == InstrumentLineKind.Event
            ? $"{Of(line.Event)}."
            : "a line that this version cannot read, kept word for word.";

    private static string Of(InstrumentEvent e) =>
        e.Kind switch
        {
            InstrumentEventKind.ModeChanged => e.Block == Block.None
                ? $"the dial asks for {ClinicWords.Modes[e.Mode]}"
                : $"the dial asks for {ClinicWords.Modes[e.Mode]}, block {ClinicWords.Blocks[e.Block]}",
            InstrumentEventKind.EdgeMarked =>
                $"{(e.Edge == PupilEdge.Nasal ? "nasal" : "temporal")} edge of {ChartWords.Of(e.Eye)} marked at {e.Position.Value} µm",
            InstrumentEventKind.ScaleAtRest => $"scale of {ChartWords.Of(e.Eye)} at rest at {e.Position.Value} µm",
            InstrumentEventKind.LampSwitched => e.LampOn
                ? $"lamp of {ChartWords.Of(e.Eye)} on at {e.LampLevelPercent} %"
                : $"lamp of {ChartWords.Of(e.Eye)} off",
            InstrumentEventKind.RoomLight => $"the room is {Room(e)}",
            InstrumentEventKind.FixationChanged => $"fixation {(e.Fixation == FixationDistance.Near ? "near" : "far")}",
            InstrumentEventKind.LensMoved => $"viewing lens swung {(e.LensIn ? "in" : "out")}",
            InstrumentEventKind.SwitchedOff => "switched off",
            InstrumentEventKind.FaultReported => $"fault {e.FaultCode}: {e.FaultText}",
            InstrumentEventKind.EventsLost => $"events {e.FirstLost} to {e.Sequence} are lost from its memory",
            _ => "an event that this version does not know, kept word for word",
        };

    private static string Room(InstrumentEvent e) =>
        e.Room switch
        {
            RoomLightLevel.Bright => "bright",
            RoomLightLevel.Dim => "dim",
            _ => string.Create(CultureInfo.InvariantCulture, $"at {e.RoomMillilux / 1000.0:0.###} lx"),
        };
}
