using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Words;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Clinic.Records;

/// <summary>An instrument's event in words, read anew from its line.</summary>
internal static class EventWords
{
    /// <summary>The words; for a line that cannot be read, that it is kept word for word.</summary>
    public static string Of(string rawLine) =>
        Ascii.IsValid(rawLine)
        && InstrumentLineDecoder.TryDecode(Encoding.ASCII.GetBytes(rawLine), out var line, out _)
        && line.Kind == InstrumentLineKind.Event
            ? Of(line.Event)
            : ClinicText.Records["Event.Unreadable"];

    private static string Of(InstrumentEvent e) =>
        e.Kind switch
        {
            InstrumentEventKind.ModeChanged => Mode(e),
            InstrumentEventKind.EdgeMarked => e.Edge == PupilEdge.Nasal
                ? ClinicText.Records.Get("Event.NasalEdge", HouseWords.Of(e.Eye), e.Position.Value)
                : ClinicText.Records.Get("Event.TemporalEdge", HouseWords.Of(e.Eye), e.Position.Value),
            InstrumentEventKind.ScaleAtRest => ClinicText.Records.Get(
                "Event.Rest",
                HouseWords.Of(e.Eye),
                e.Position.Value
            ),
            InstrumentEventKind.LampSwitched => e.LampOn
                ? ClinicText.Records.Get("Event.LampOn", HouseWords.Of(e.Eye), e.LampLevelPercent)
                : ClinicText.Records.Get("Event.LampOff", HouseWords.Of(e.Eye)),
            InstrumentEventKind.LampOutput => ClinicText.Records.Get(
                "Event.LampOutput",
                HouseWords.Of(e.Eye),
                Lux(e.LampMillilux)
            ),
            InstrumentEventKind.RoomLight => Room(e),
            InstrumentEventKind.FixationChanged => e.Fixation == FixationDistance.Near
                ? ClinicText.Records["Event.FixationNear"]
                : ClinicText.Records["Event.FixationFar"],
            InstrumentEventKind.LensMoved => e.LensIn
                ? ClinicText.Records["Event.LensIn"]
                : ClinicText.Records["Event.LensOut"],
            InstrumentEventKind.SwitchedOff => ClinicText.Records["Event.Off"],
            InstrumentEventKind.FaultReported => ClinicText.Records.Get("Event.Fault", e.FaultCode, e.FaultText),
            InstrumentEventKind.EventsLost => ClinicText.Records.Get("Event.Lost", e.FirstLost, e.Sequence),
            _ => ClinicText.Records["Event.Unknown"],
        };

    private static string Mode(InstrumentEvent e) =>
        e.Block == Block.None
            ? ClinicText.Records.Get("Event.Mode", ClinicWords.Modes[e.Mode])
            : ClinicText.Records.Get("Event.ModeBlock", ClinicWords.Modes[e.Mode], ClinicWords.Blocks[e.Block]);

    private static string Room(InstrumentEvent e) =>
        e.Room switch
        {
            RoomLightLevel.Bright => ClinicText.Records["Event.RoomBright"],
            RoomLightLevel.Dim => ClinicText.Records["Event.RoomDim"],
            _ => ClinicText.Records.Get("Event.RoomAt", Lux(e.RoomMillilux)),
        };

    private static string Lux(int millilux) => (millilux / 1000.0).ToString("0.###", CultureInfo.InvariantCulture);
}
