using System.Globalization;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Scripts;

/// <summary>The commands of the script language.</summary>
internal sealed class ScriptCommands
{
    private readonly Dictionary<string, Lane> lanes = [];
    private readonly Dictionary<string, (JournalSequence Sequence, EntryId Id)> labels = [];
    private readonly List<SequencedEntry> journal = [];
    private readonly SortedDictionary<ExamId, Exam> exams = [];
    private ExamBook book = ExamBook.Empty;
    private int folded;
    private long clock = 1_000_000;
    private ulong ids;
    private EntryId? forcedId;
    private Lane lane;

    public ScriptCommands() => lane = LaneOf("Q7");

    public IReadOnlyList<SequencedEntry> Journal => journal;

    public void Do(string command)
    {
        string? label = null;
        if (command.Split(' ')[0].EndsWith(':'))
        {
            label = command.Split(' ')[0].TrimEnd(':');
            command = command[(label.Length + 1)..].Trim();
        }

        lane = LaneOf("Q7");
        if (command.StartsWith('@'))
        {
            lane = LaneOf(command.Split(' ')[0][1..]);
            command = command[(lane.Serial.Value.Length + 1)..].Trim();
        }

        var before = journal.Count;
        var words = command.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (!InstrumentSays(words) && !PersonSays(words) && !ServiceSays(words))
            throw new ArgumentException($"No such command: {command}");
        if (label is not null)
            labels[label] = (new(before + 1), (journal[^1].Entry as PersonEntry)?.Id ?? default);
    }

    private bool InstrumentSays(string[] w)
    {
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
                Do($"@{lane.Serial} edge {w[1]} N 5000");
                Do("+1000");
                Do($"@{lane.Serial} edge {w[1]} T {5000 + int.Parse(w[2], CultureInfo.InvariantCulture)}");
                Do("+1000");
                return true;
            case "rest": // rest R 12800
                Say(InstrumentEvent.ScaleAtRest(default, EyeOf(w[1]), Um(w[2])));
                return true;
            case "slide": // slide R 3200: off home, rest, home again, on the scale of model B
                Do($"@{lane.Serial} rest {w[1]} {16000 - int.Parse(w[2], CultureInfo.InvariantCulture)}");
                Do("+1000");
                Do($"@{lane.Serial} rest {w[1]} 16000");
                Do("+1000");
                return true;
            case "lamp": // lamp R on | lamp R off
                Say(InstrumentEvent.LampSwitched(default, EyeOf(w[1]), w[2] == "on", w[2] == "on" ? 100 : 0));
                return true;
            case "stim": // stim R 1000
                Do($"@{lane.Serial} lamp {w[1]} on");
                Do($"+{w[2]}");
                Do($"@{lane.Serial} lamp {w[1]} off");
                return true;
            case "swings": // swings 1000 4 R: alternations of that dwell, that eye first
                for (var i = 0; i < 2 * int.Parse(w[2], CultureInfo.InvariantCulture); i++)
                    Do($"@{lane.Serial} stim {(i % 2 == 0 ? w[3] : EyeOf(w[3]).Fellow().ToString())} {w[1]}");
                return true;
            case "directs": // directs: three stimuli of 1 s in each eye, 3 s apart
                foreach (var eye in new[] { "R", "R", "R", "L", "L", "L" })
                {
                    Do($"@{lane.Serial} stim {eye} 1000");
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

    private bool PersonSays(string[] w)
    {
        switch (w[0])
        {
            case "open":
                PatientId? patient = w.Length > 1 ? new PatientId(w[1]) : null;
                Put(
                    new ExamOpened
                    {
                        Id = NextId(),
                        Who = new("AB"),
                        At = new(clock),
                        ProgramVersion = "0",
                        Serial = lane.Serial,
                        Patient = patient,
                    }
                );
                return true;
            case "patient":
                Put(
                    new PatientEntered
                    {
                        Id = NextId(),
                        Who = new("AB"),
                        At = new(clock),
                        ProgramVersion = "0",
                        Patient = new(w[1]),
                        Details = null,
                    }
                );
                return true;
            case "twice": // twice LABEL COMMAND: the command under the name of an earlier entry
                forcedId = labels[w[1]].Id;
                Do($"@{lane.Serial} {string.Join(' ', w[2..])}");
                forcedId = null;
                return true;
            default:
                return AboutExam(w);
        }
    }

    private bool AboutExam(string[] w)
    {
        var target = lane;
        ExamId? exam = null;
        if (w[^1].StartsWith("exam=", StringComparison.Ordinal))
        {
            exam = ExamId.OpenedBy(labels[w[^1][5..]].Sequence);
            w = w[..^1];
        }

        JournalSequence? saw = null;
        if (w[^1].StartsWith("saw=", StringComparison.Ordinal))
        {
            saw = labels[w[^1][4..]].Sequence;
            w = w[..^1];
        }

        if (PersonEntries.Make(w, labels, saw) is not { } make)
            return false;
        exam ??= LastExamOf(target) ?? throw new ArgumentException($"{target.Serial} has no exam yet: {w[0]}");
        Put(make(new(NextId(), new("AB"), new(clock), "0"), exam.Value));
        return true;
    }

    /// <summary>The exam of an instrument that was opened last; null if there is none.</summary>
    public ExamId? LastExamOf(Lane of)
    {
        for (; folded < journal.Count; folded++)
        {
            (book, var changes) = ExamReducer.Apply(book, journal[folded], id => exams.GetValueOrDefault(id));
            foreach (var change in changes.OfType<ExamChanged>())
                exams[change.Exam.Id] = change.Exam;
        }

        return exams.Values.LastOrDefault(e => e.Serial == of.Serial)?.Id;
    }

    private EntryId NextId() => forcedId ?? new(++ids);

    private void Say(InstrumentEvent happened) => Put(lane.Say(happened, clock));

    private void Put(JournalEntry entry)
    {
        if (entry is InstrumentReported reported && LaneOf(reported.Serial.Value) is { IsHeld: true } holding)
            holding.Hold(reported);
        else
            journal.Add(new(new(journal.Count + 1), entry));
    }

    public Lane LaneOf(string serial) =>
        lanes.TryGetValue(serial, out var known) ? known : lanes[serial] = new Lane(serial);

    internal static Eye EyeOf(string word) => word[0] == 'R' ? Eye.Right : Eye.Left;

    internal static Block BlockOf(string word) =>
        word switch
        {
            "direct" => Block.Direct,
            "short" => Block.SwingShort,
            "long" => Block.SwingLong,
            "near" => Block.Near,
            _ => Block.None,
        };

    private static Micrometres Um(string word) => new(int.Parse(word, CultureInfo.InvariantCulture));
}
