using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Constructed.Scripts;

/// <content>What the service notes, and the time that passes.</content>
public sealed partial class ScriptCommands
{
    private bool ServiceSays(string[] w)
    {
        if (w[0][0] == '+')
        {
            clock += long.Parse(w[0], CultureInfo.InvariantCulture);
            return true;
        }

        switch (w[0])
        {
            case "meet":
                Put(lane.Identify(w[1], clock));
                return true;
            case "boot":
                lane.Restart(w.Length > 1 ? ulong.Parse(w[1], CultureInfo.InvariantCulture) : null);
                return true;
            case "hole": // events that are missing without a word
                lane.Skip(int.Parse(w[1], CultureInfo.InvariantCulture));
                return true;
            case "lost": // lost 2 | lost rest: the link gives events up
                long? last = w[1] == "rest" ? null : lane.LastEvent + int.Parse(w[1], CultureInfo.InvariantCulture);
                Put(
                    new EventsLost
                    {
                        At = new(clock),
                        Serial = lane.Serial,
                        Boot = lane.Boot,
                        First = lane.LastEvent + 1,
                        Last = last,
                        Cause = last is null ? LossCause.BootEnded : LossCause.NoLongerKept,
                    }
                );
                lane.Skip((last ?? lane.LastEvent) - lane.LastEvent);
                return true;
            case "conflict":
                Put(
                    new EventsConflict
                    {
                        At = new(clock),
                        Serial = lane.Serial,
                        Boot = lane.Boot,
                        Sequence = lane.LastEvent,
                        RawLine = "EV",
                    }
                );
                return true;
            case "line":
                Put(
                    new LineChanged
                    {
                        At = new(clock),
                        Serial = lane.Serial,
                        PortName = "memory",
                        State = Enum.Parse<LineState>(w[1], ignoreCase: true),
                        Reason = "",
                    }
                );
                return true;
            case "silence":
                Put(new SilenceReached { At = new(clock), Serial = lane.Serial });
                return true;
            case "start":
                Put(
                    new ServiceStarted
                    {
                        At = new(clock),
                        ProgramVersion = w[1],
                        Host = new(1),
                    }
                );
                return true;
            case "profile": // profile near: the near response always belongs to the steps
                var steps = Profile.Default.Steps.Add(ExamStep.Near);
                Put(
                    new ProfileInForce
                    {
                        At = new(clock),
                        Profile = Profile.Default with { Name = w[1], Steps = steps },
                    }
                );
                return true;
            case "unsure":
                lane.Uncertainty = long.Parse(w[1], CultureInfo.InvariantCulture);
                return true;
            case "hold": // what the instrument says from now on arrives later
                lane.IsHeld = true;
                return true;
            case "release":
                foreach (var reported in lane.Release())
                    Put(reported with { ArrivedAt = new(clock) });
                return true;
            default:
                return false;
        }
    }
}
