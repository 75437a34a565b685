using System.Globalization;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Watch;

/// <summary>
/// One lane as a few lines of text: line and mode, both eyes, the exam, what is asked for. What is live and not recorded
/// is marked with <c>~</c>.
/// </summary>
internal static class LaneText
{
    /// <summary>The lines of a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="now">The present time, for how long a lamp has been on.</param>
    /// <returns>Lines without line ends.</returns>
    public static IReadOnlyList<string> Lines(LaneView lane, DateTimeOffset now)
    {
        var lines = new List<string>
        {
            Head(lane.Instrument),
            $"  mode      {Mode(lane.Live)}",
            $"  OD right  {EyeLine(lane.Live.Right, now)}",
            $"  OS left   {EyeLine(lane.Live.Left, now)}",
            $"  recorded  {Recorded(lane.Live)}",
        };
        lines.Add(
            lane.Exam is { } exam
                ? $"  exam      {exam.Exam}, patient {exam.Patient ?? "not said yet"}, {exam.Status}"
                : "  exam      none"
        );
        lines.Add($"  asked for {Asked(lane.AskedFor)}");
        if (lane.Exam is { ChartLine.Length: > 0 } chart)
        {
            lines.Add($"  chart     {chart.ChartLine}");
        }

        if (lane.Live.Fault is { } fault)
        {
            lines.Add($"  FAULT     {fault}");
        }

        if (lane.Trouble is { } trouble)
        {
            lines.Add($"  TROUBLE   {trouble}");
        }

        return lines;
    }

    private static string Head(InstrumentView instrument)
    {
        var battery = instrument.BatteryPercent is { } percent ? $", battery {percent} %" : "";
        return $"{instrument.Model} {instrument.Instrument}: {instrument.Line} on {instrument.Port ?? "no port"}{battery}";
    }

    private static string Mode(LiveView live) =>
        live.Mode is null ? "not told yet"
        : live.Block is null or "none" ? live.Mode
        : $"{live.Mode}, {live.Block}";

    private static string EyeLine(LiveEyeView eye, DateTimeOffset now)
    {
        var position = eye.PositionMicrometres is { } micrometres
            ? string.Create(CultureInfo.InvariantCulture, $"~ scale at {micrometres / 1000.0, 5:0.00} mm")
            : "  scale not told yet";
        var moving = eye.IsMoving ? "moving " : "       ";
        return $"{position} {moving}{Lamp(eye, now)}".TrimEnd();
    }

    private static string Lamp(LiveEyeView eye, DateTimeOffset now)
    {
        if (!eye.IsLit)
        {
            return "";
        }

        var since = eye.LitSince is { } start
            ? string.Create(CultureInfo.InvariantCulture, $" for {Math.Max(0, (now - start).TotalSeconds):0.0} s")
            : "";
        return $"LIT {eye.LampPercent} %{since}";
    }

    private static string Recorded(LiveView live) =>
        live.RecordedEvents == live.ReceivedEvents
            ? $"all {live.RecordedEvents} events"
            : $"{live.RecordedEvents} of {live.ReceivedEvents} events";

    private static string Asked(AskedForView? asked) =>
        asked?.Steps switch
        {
            null => "-",
            [] => "nothing more",
            [var first, ..] => first.Words,
        };
}
