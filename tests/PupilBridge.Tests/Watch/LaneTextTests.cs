using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Watch;

namespace PupilBridge.Tests.Watch;

/// <summary>What a watcher sees of a lane.</summary>
public sealed class LaneTextTests
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 8, 0, 10, TimeSpan.Zero);

    [Fact]
    public void Live_positions_are_marked_as_not_recorded_and_the_lit_eye_stands_out()
    {
        var text = string.Join('\n', LaneText.Lines(Lane(), Now));
        Assert.Contains("OD right  ~ scale at  6.02 mm moving", text, StringComparison.Ordinal);
        Assert.Contains("LIT 100 % for 1.5 s", text, StringComparison.Ordinal);
        Assert.Contains("recorded  40 of 41 events", text, StringComparison.Ordinal);
        Assert.Contains("sequence, direct", text, StringComparison.Ordinal);
        Assert.Contains("asked for Grade the right pupil", text, StringComparison.Ordinal);
        Assert.Contains("battery 80 %", text, StringComparison.Ordinal);
        Assert.DoesNotContain("TROUBLE", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Trouble_with_the_disk_and_faults_of_the_instrument_are_shown()
    {
        var lane = Lane() with { Trouble = "The disk is full." };
        var text = string.Join('\n', LaneText.Lines(lane with { Live = lane.Live with { Fault = "12 lamp" } }, Now));
        Assert.Contains("TROUBLE   The disk is full.", text, StringComparison.Ordinal);
        Assert.Contains("FAULT     12 lamp", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_screen_is_given_back_as_it_was()
    {
        using var output = new StringWriter();
        var terminal = new Terminal
        {
            Out = output,
            Error = TextWriter.Null,
            IsInteractive = true,
            Width = 60,
        };
        var screen = new WatchScreen(terminal, TimeProvider.System);
        screen.Open();
        screen.Show(Lane());
        screen.Close();
        var text = output.ToString();
        Assert.StartsWith("\e[?1049h", text, StringComparison.Ordinal);
        Assert.EndsWith("\e[?1049l", text, StringComparison.Ordinal);
        Assert.All(text.Split("\r\n"), line => Assert.True(line.Length < 60 + 20, line));
    }

    private static LaneView Lane() =>
        new()
        {
            Instrument = new InstrumentView
            {
                Instrument = "QA-1",
                Model = "Quay-A",
                Firmware = "1.4.0",
                Port = "/dev/quay",
                Line = "connected",
                HeardAt = Now,
                BatteryPercent = 80,
                OpenExam = 7,
            },
            Live = new LiveView
            {
                Mode = "sequence",
                Block = "direct",
                Right = new LiveEyeView(6020, true, false, 0, null),
                Left = new LiveEyeView(null, false, true, 100, Now.AddSeconds(-1.5)),
                ReceivedEvents = 41,
                RecordedEvents = 40,
                Fault = null,
            },
            Exam = null,
            AskedFor = new AskedForView(7, [new AskedStep("direct", ["OD"], true, "Grade the right pupil")]),
            Trouble = null,
        };
}
