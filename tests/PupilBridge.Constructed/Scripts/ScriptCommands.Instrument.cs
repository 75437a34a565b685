using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Constructed.Scripts;

/// <content>What the instrument says.</content>
public sealed partial class ScriptCommands
{
    private bool InstrumentSays(string[] w)
    {
        // A command made of others is about one instrument, whatever those leave behind.
        var serial = lane.Serial;
        switch (w[0])
        {
            case "mode": // mode measure | mode hold direct | mode sequence direct self
                var mode = Enum.Parse<InstrumentMode>(w[1], ignoreCase: true);
                var block = w.Length > 2 ? BlockOf(w[2]) : Block.None;
                Say(
                    InstrumentEvent.ModeChanged(default, mode, block, w[^1] == "self" ? ModeCause.Self : ModeCause.Dial)
                );
                return true;
            case "edge": // edge R N 4000
                Say(
                    InstrumentEvent.EdgeMarked(
                        default,
                        EyeOf(w[1]),
                        w[2] == "N" ? PupilEdge.Nasal : PupilEdge.Temporal,
                        Um(w[3])
                    )
                );
                return true;
            case "pair": // pair R 3200: both edges marked, one second apart, on the scale of model A
                Do($"@{serial} edge {w[1]} N 5000");
                Do("+1000");
                Do($"@{serial} edge {w[1]} T {5000 + int.Parse(w[2], CultureInfo.InvariantCulture)}");
                Do("+1000");
                return true;
            case "rest": // rest R 12800
                Say(InstrumentEvent.ScaleAtRest(default, EyeOf(w[1]), Um(w[2])));
                return true;
            case "slide": // slide R 3200: off home, rest, home again, on the scale of model B
                Do($"@{serial} rest {w[1]} {16000 - int.Parse(w[2], CultureInfo.InvariantCulture)}");
                Do("+1000");
                Do($"@{serial} rest {w[1]} 16000");
                Do("+1000");
                return true;
            case "lamp": // lamp R on | lamp R off
                Say(InstrumentEvent.LampSwitched(default, EyeOf(w[1]), w[2] == "on", w[2] == "on" ? 100 : 0));
                return true;
            case "stim": // stim R 1000
                Do($"@{serial} lamp {w[1]} on");
                Do($"+{w[2]}");
                Do($"@{serial} lamp {w[1]} off");
                return true;
            case "swings": // swings 1000 4 R: alternations of that dwell, that eye first
                for (var i = 0; i < 2 * int.Parse(w[2], CultureInfo.InvariantCulture); i++)
                    Do($"@{serial} stim {(i % 2 == 0 ? w[3] : EyeOf(w[3]).Fellow().ToString())} {w[1]}");
                return true;
            case "directs": // directs: three stimuli of 1 s in each eye, 3 s apart
                foreach (var eye in new[] { "R", "R", "R", "L", "L", "L" })
                {
                    Do($"@{serial} stim {eye} 1000");
                    Do("+3000");
                }

                return true;
            case "lux":
                Say(InstrumentEvent.RoomMeasured(default, 1000 * int.Parse(w[1], CultureInfo.InvariantCulture)));
                return true;
            case "bright" or "dim":
                Say(InstrumentEvent.RoomSwitched(default, w[0] == "dim" ? RoomLightLevel.Dim : RoomLightLevel.Bright));
                return true;
            case "fix":
                Say(
                    InstrumentEvent.FixationChanged(
                        default,
                        w[1] == "near" ? FixationDistance.Near : FixationDistance.Far
                    )
                );
                return true;
            case "lens":
                Say(InstrumentEvent.LensMoved(default, w[1] == "in"));
                return true;
            case "off":
                Say(InstrumentEvent.SwitchedOff(default));
                return true;
            case "fault":
                Say(InstrumentEvent.FaultReported(default, 7, "lamp weak"));
                return true;
            case "gap": // gap 3: three events are lost, the instrument says so
                var first = lane.LastEvent + 1;
                lane.Skip(int.Parse(w[1], CultureInfo.InvariantCulture) - 1);
                Say(InstrumentEvent.EventsLost(default, first));
                return true;
            case "raw": // raw EV,…
                Put(lane.Raw(Lane.WithCrc(string.Join(' ', w[1..])), clock));
                return true;
            case "again": // the last event once more
                Put((InstrumentReported)journal.Last(e => e.Entry is InstrumentReported).Entry);
                return true;
            default:
                return false;
        }
    }

    private static Micrometres Um(string word) => new(int.Parse(word, CultureInfo.InvariantCulture));
}
