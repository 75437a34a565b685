using PupilBridge.Conformance.Lines;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Steps;

/// <summary>One line of the run, of either side, with what was made of it.</summary>
/// <param name="Line">The line as it crossed.</param>
/// <param name="Said">For a good line of the instrument, its content; otherwise the default.</param>
/// <param name="Fault">What is wrong with a line of the instrument.</param>
internal sealed record Crossed(WireLine Line, InstrumentLine Said, LineFault Fault)
{
    public TimeSpan At => Line.At;

    public string Text => Line.Text;

    public bool IsFromInstrument => Line.Way == LineWay.FromInstrument;

    /// <summary>Whether it is a good line of the instrument.</summary>
    public bool IsGood => IsFromInstrument && Line.IsEnded && Fault.Kind == LineFaultKind.None;

    /// <summary>Its type as it stands on the line.</summary>
    public string Type => Text.Split(',', '*')[0];

    public string[] Fields => Text.Split('*')[0].Split(',');

    public bool Is(InstrumentLineKind kind) => IsGood && Said.Kind == kind;

    /// <summary>The boot that a good line of the instrument names; null for all others.</summary>
    public BootNumber? Boot =>
        !IsGood
            ? null
            : Said.Kind switch
            {
                InstrumentLineKind.Event => Said.Event.Boot,
                InstrumentLineKind.Beat => Said.Beat.Boot,
                InstrumentLineKind.Identity => Said.Identity.Boot,
                _ => null,
            };

    /// <summary>A line of the host that asks for events anew.</summary>
    public bool IsRequest => !IsFromInstrument && Type is "WHO" or "TAKE" or "RESEND";
}
