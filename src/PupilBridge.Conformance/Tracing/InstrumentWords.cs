using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Tracing;

/// <summary>What a well-formed line of an instrument says, in words.</summary>
internal static class InstrumentWords
{
    public static string Of(in InstrumentLine line) =>
        line.Kind switch
        {
            InstrumentLineKind.Identity => Identity(line.Identity),
            InstrumentLineKind.Stop => Text(
                $"stop {line.Stop.Index} of the dial: {FieldNames.Of(line.Stop.Mode)}, {FieldNames.Of(line.Stop.Block)}"
            ),
            InstrumentLineKind.Scale => Scale(line.Scale),
            InstrumentLineKind.Event => EventWords.Of(line.Event),
            InstrumentLineKind.Position => Text(
                $"{FieldNames.Of(line.Position.Eye)}, scale moves at {FieldNames.Of(line.Position.Position)}, tick {line.Position.Tick.Milliseconds} ms"
            ),
            InstrumentLineKind.Beat => Beat(line.Beat),
            InstrumentLineKind.Reply => Reply(line.Reply),
            InstrumentLineKind.Held => Text(
                $"held by host {line.Held.Holder}, heard {line.Held.SecondsSinceHeard} s ago"
            ),
            InstrumentLineKind.NoVersion => Text(
                $"no common version: the instrument speaks {line.Versions.Lowest} to {line.Versions.Highest}"
            ),
            _ => "a type that this version does not know; a host passes it over",
        };

    private static string Identity(in IdentityHead id)
    {
        var acknowledged = id.AcknowledgedBy.IsKnown
            ? Text($"acknowledged up to {id.Acknowledged} by host {id.AcknowledgedBy}")
            : "nothing acknowledged in this boot";
        return Text(
            $"version {id.Version}, serial number {id.Serial}, model {id.Model}, firmware {id.Firmware}, boot {id.Boot}, abilities {Abilities(id.Abilities)}, {id.StopCount} stops, {acknowledged}"
        );
    }

    private static string Abilities(InstrumentAbilities abilities)
    {
        (InstrumentAbilities Ability, string Name)[] names =
        [
            (InstrumentAbilities.MarkKeys, "mark keys"),
            (InstrumentAbilities.LightSensor, "light sensor"),
            (InstrumentAbilities.LightSwitch, "light switch"),
            (InstrumentAbilities.StimulusProfile, "stimulus trains"),
            (InstrumentAbilities.SwitchOff, "switching off"),
            (InstrumentAbilities.Fixation, "fixation"),
            (InstrumentAbilities.ViewingLens, "viewing lens"),
            (InstrumentAbilities.Battery, "battery"),
            (InstrumentAbilities.LampMeter, "lamp meter"),
        ];
        var told = names.Where(n => (abilities & n.Ability) != 0).Select(n => n.Name);
        return abilities == InstrumentAbilities.None ? "none" : $"[{string.Join(", ", told)}]";
    }

    private static string Scale(EyeScale told)
    {
        var (scale, towards) = (
            told.Scale,
            told.Scale.Direction == ScaleDirection.Nasal ? "towards the nose" : "away from the nose"
        );
        return Text(
            $"scale of the {FieldNames.Of(told.Eye)}: home {FieldNames.Of(scale.Home)}, grows {towards}, steps of {FieldNames.Of(scale.Resolution)}, {scale.Lowest.Value} to {FieldNames.Of(scale.Highest)}"
        );
    }

    private static string Beat(Heartbeat beat)
    {
        var battery = beat.BatteryPercent is { } percent ? Text($", battery {percent} %") : "";
        var kept = beat.OldestKept > beat.Last ? "nothing kept" : Text($"oldest kept {beat.OldestKept}");
        return Text(
            $"heartbeat of boot {beat.Boot}, tick {beat.Tick.Milliseconds} ms, {kept}, last event {beat.Last}{battery}"
        );
    }

    private static string Reply(in CommandReply reply)
    {
        var answer = reply.Answer switch
        {
            CommandAnswer.Ok => "done",
            CommandAnswer.Refused => "refused",
            CommandAnswer.Unknown => "unknown to the instrument",
            _ => "not now, busy with an earlier one",
        };
        var reason = reply.Reason.Length > 0 ? $" ({reply.Reason})" : "";
        return Text($"command {reply.Number} of host {reply.Host}: {answer}{reason}");
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
