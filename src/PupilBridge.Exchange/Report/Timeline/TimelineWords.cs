using System.Globalization;

namespace PupilBridge.Exchange.Report.Timeline;

/// <summary>The plot in words, for whoever does not see it: the same captures and stimuli, none left out.</summary>
internal static class TimelineWords
{
    private static readonly string[] Eyes = ["right", "left"];

    /// <summary>The words.</summary>
    /// <param name="timeline">The timeline.</param>
    public static string Of(ExamTimeline timeline) =>
        string.Join(". ", Eyes.SelectMany(eye => OfEye(timeline, eye))) + ".";

    private static IEnumerable<string> OfEye(ExamTimeline timeline, string eye)
    {
        var text = ReportWords.Text;
        var name = ReportWords.Of("Eye", eye);
        string[] captures = [.. timeline.Captures.Where(c => c.Eye == eye).Select(Capture)];
        yield return captures.Length == 0
            ? text.Get("Timeline.NoCaptures", name)
            : text.Get("Timeline.Captures", name, string.Join(", ", captures));
        var trains = timeline.Trains.Where(t => t.Eye == eye).ToArray();
        if (trains.Length == 0)
            yield return text.Get("Timeline.NoStimuli", name);
        foreach (var train in trains)
        {
            var (from, to) = (Clock(train.Bars[0].OnMilliseconds), Clock(train.Bars[^1].OnMilliseconds));
            yield return train.Block is null
                ? text.Counted("Timeline.Loose", train.Bars.Count, name, train.Bars.Count, from, to)
                : text.Counted(
                    "Timeline.Train",
                    train.Bars.Count,
                    name,
                    ReportWords.Of("Block", train.Block),
                    train.Run,
                    train.Bars.Count,
                    from,
                    to
                );
        }
    }

    private static string Capture(TimelineCapture capture)
    {
        var (size, at) = (ReportWords.Millimetres(capture.DiameterMicrometres), Clock(capture.AtMilliseconds));
        return capture.Light is null
            ? ReportWords.Text.Get("Timeline.CaptureUnsaid", size, at)
            : ReportWords.Text.Get("Timeline.Capture", size, ReportWords.Of("Light", capture.Light), at);
    }

    private static string Clock(long milliseconds)
    {
        var at = TimeSpan.FromMilliseconds(Math.Abs(milliseconds));
        var sign = milliseconds < 0 ? "-" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{sign}{(int)at.TotalMinutes}:{at:ss\\.f}");
    }
}
