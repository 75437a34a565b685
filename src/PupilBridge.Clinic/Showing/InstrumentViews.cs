using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Showing;

/// <summary>Instruments, their lines, and what they say just now.</summary>
internal static class InstrumentViews
{
    /// <summary>All instruments that the journal or a line knows.</summary>
    public static InstrumentList List(IClinicHouse house)
    {
        var live = house.Look();
        var serials = house.Book.Lanes.Keys.Union(live.Instruments.Select(i => i.Serial.Value), StringComparer.Ordinal);
        return new InstrumentList(
            house.IsLive,
            [.. serials.Order(StringComparer.Ordinal).Select(serial => Of(house, live, serial))],
            [.. live.Ports.Select(Of)],
            house.Trouble ?? house.ExamsWaitFor
        );
    }

    /// <summary>One instrument with its exam, as it is now; null if nobody knows it.</summary>
    /// <param name="house">Where to look.</param>
    /// <param name="serial">The instrument.</param>
    /// <param name="before">
    /// The exam as it was shown last. Live positions come many times a second and change nothing about it: then it is shown as before.
    /// </param>
    public static LaneView? Lane(IClinicHouse house, string serial, ref ShownExam? before)
    {
        var snapshot = house.Look();
        var book = house.Book;
        var live = snapshot.Instruments.FirstOrDefault(i => i.Serial.Value == serial);
        if (live is null && !book.Lanes.ContainsKey(serial))
        {
            return null;
        }

        var exam = book.OpenExamOf(new SerialNumber(serial));
        if (!ReferenceEquals(exam, before?.Exam))
        {
            before = exam is null ? null : new ShownExam(exam, ExamSummaries.Of(exam), AskedForViews.Of(house, exam));
        }

        return new LaneView
        {
            Instrument = Of(house, snapshot, serial),
            Live = Live(live),
            Exam = before?.Summary,
            AskedFor = before?.AskedFor,
            Trouble = house.Trouble ?? house.ExamsWaitFor,
        };
    }

    private static InstrumentView Of(IClinicHouse house, LiveSnapshot snapshot, string serial)
    {
        var live = snapshot.Instruments.FirstOrDefault(i => i.Serial.Value == serial);
        var lane = house.Book.Lane(new SerialNumber(serial));
        return new InstrumentView
        {
            Instrument = serial,
            Model = live?.Model ?? lane?.Identity?.Model ?? "",
            Firmware = live?.Firmware ?? lane?.Identity?.Firmware ?? "",
            Port = live?.Port,
            Line = Line(house, live, lane),
            HeardAt = live?.HeardAt,
            BatteryPercent = live?.BatteryPercent,
            OpenExam = lane?.OpenExam?.Value,
            Fault = live?.Fault,
        };
    }

    private static string Line(IClinicHouse house, LiveInstrument? live, LaneState? lane) =>
        LaneLines.IsOff(lane, live) ? LaneLines.Off
        : live is { IsConnected: true } ? LaneLines.Connected
        : live is null && house.IsLive ? "not-seen"
        : lane?.Line is { } line and not LineState.Connected ? Shown.Word(line)
        : live is null ? "not-seen"
        : "lost";

    private static LineView Of(PortStatus port) =>
        new(port.Port, Shown.Word(port.Phase), port.Message, port.Serial?.Value);

    private static LiveView Live(LiveInstrument? live) =>
        new()
        {
            Mode = live?.Mode is { } mode ? ClinicWords.Modes[mode.Mode] : null,
            Block = live?.Mode is { } with ? ClinicWords.Blocks[with.Block] : null,
            Right = Side(live, Eye.Right),
            Left = Side(live, Eye.Left),
            ReceivedEvents = live?.Received ?? 0,
            RecordedEvents = live?.Recorded ?? 0,
            Fault = live?.Fault,
        };

    private static LiveEyeView Side(LiveInstrument? live, Eye eye)
    {
        if (live is null)
        {
            return new LiveEyeView(null, false, false, 0, null);
        }

        var (scale, lamp) = (live.Scales[eye], live.Lamps[eye]);
        return new LiveEyeView(
            scale.Position?.Value,
            scale.IsMoving,
            lamp.IsOn,
            lamp.LevelPercent,
            lamp.IsOn ? lamp.SinceAbout : null
        );
    }
}

/// <summary>An open exam and what was shown of it.</summary>
/// <param name="Exam">The exam: a value that never changes.</param>
/// <param name="Summary">Its line in a list.</param>
/// <param name="AskedFor">What it asks for.</param>
internal sealed record ShownExam(Exam Exam, ExamSummary Summary, AskedForView AskedFor);
