using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;

namespace PupilBridge.Watch;

/// <summary>
/// The lanes in a terminal window, drawn again in place whenever something changed. Dim letters on the terminal's own
/// background and no other colour: a screen must not light the room.
/// </summary>
/// <param name="terminal">The terminal.</param>
/// <param name="time">The clock.</param>
internal sealed class WatchScreen(Terminal terminal, TimeProvider time)
{
    private const string Home = "\e[H";
    private const string ClearRestOfLine = "\e[K";
    private const string ClearBelow = "\e[J";
    private const string OtherScreen = "\e[?1049h\e[?25l";
    private const string BackToScreen = "\e[?25h\e[?1049l";

    private readonly SortedDictionary<string, LaneView> lanes = new(StringComparer.Ordinal);

    /// <summary>Takes the window.</summary>
    public void Open() => Write(OtherScreen);

    /// <summary>Gives the window back as it was.</summary>
    public void Close() => Write(BackToScreen);

    /// <summary>Shows a lane as it is now, beside the others as they were.</summary>
    /// <param name="lane">The lane.</param>
    public void Show(LaneView lane)
    {
        lanes[lane.Instrument.Instrument] = lane;
        Draw();
    }

    /// <summary>Draws everything.</summary>
    public void Draw()
    {
        var now = time.GetUtcNow();
        var lines =
            lanes.Count == 0
                ? ["No instrument has been met yet. Connect one, or end with Ctrl-C."]
                : lanes.Values.SelectMany(lane => LaneText.Lines(lane, now).Append(""));
        var text = lines.Append("~ live, not recorded. Ctrl-C ends; the service goes on.").Select(Cut);
        Write(Home + string.Concat(text.Select(line => line + ClearRestOfLine + "\r\n")) + ClearBelow);
    }

    private string Cut(string line) => line.Length < terminal.Width ? line : line[..(terminal.Width - 1)];

    private void Write(string text)
    {
        terminal.Out.Write(text);
        terminal.Out.Flush();
    }
}
