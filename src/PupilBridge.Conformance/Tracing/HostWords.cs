using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Tracing;

/// <summary>What a well-formed line of a host says, in words.</summary>
internal static class HostWords
{
    public static string Of(in HostLine line) =>
        line.Kind switch
        {
            HostLineKind.Who => Text(
                $"host {line.Host} asks who is there; it speaks versions {line.LowestVersion} to {line.HighestVersion}"
            ),
            HostLineKind.Take => Text(
                $"host {line.Host} takes over; it speaks versions {line.LowestVersion} to {line.HighestVersion}"
            ),
            HostLineKind.Ack when line.Sequence == 0 => Text(
                $"host {line.Host} has nothing of boot {line.Boot} on disk yet"
            ),
            HostLineKind.Ack => Text($"host {line.Host} has boot {line.Boot} on disk up to {line.Sequence}"),
            HostLineKind.Resend => Text($"host {line.Host} asks for boot {line.Boot} again from {line.Sequence}"),
            HostLineKind.Command => Text($"host {line.Host} gives command {line.CommandNumber}: {What(line.Command)}"),
            _ => "a type that this version does not know; an instrument passes it over",
        };

    private static string What(InstrumentCommand command) =>
        command.Kind switch
        {
            InstrumentCommandKind.Off => "switch off",
            InstrumentCommandKind.Train => Text(
                $"train for {FieldNames.Of(command.Block)}, {command.Stimuli} stimuli, {command.DwellMilliseconds} ms lit, {command.GapMilliseconds} ms dark"
            ),
            InstrumentCommandKind.Unreadable => "a known one with fields out of range",
            _ => "one that this version does not know",
        };

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
