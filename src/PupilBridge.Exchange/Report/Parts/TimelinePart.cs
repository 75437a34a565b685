using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Report.Timeline;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>The exam over time, and the timing of its stimuli in numbers.</summary>
internal static class TimelinePart
{
    public static ReportSection Of(SignedRecord record)
    {
        var text = ReportWords.Text;
        var timeline = ExamTimeline.Of(record);
        List<ReportPart> parts = [];
        if (timeline.IsEmpty)
            parts.Add(new ReportText(text["Timeline.Empty"]));
        else
            parts.Add(new ReportFigure(new TimelinePlot(timeline), TimelineWords.Of(timeline)));
        if (record is { Trains.Count: 0, Runs.Count: > 0 })
            parts.Add(new ReportText(text["Timeline.OldFormat"]));
        if (record.Runs.Count > 0)
        {
            parts.Add(
                new ReportTable(
                    text["Timing.Caption"],
                    [
                        text["Timing.Run"],
                        text["Timing.Count"],
                        text["Timing.Dwell"],
                        text["Timing.Gap"],
                        text["Timing.Verdict"],
                    ],
                    [0.22, 0.18, 0.22, 0.16, 0.22],
                    [.. record.Runs.Select(Row)]
                )
                {
                    IsSmall = true,
                }
            );
        }

        return new(text["Section.Timeline"], parts);
    }

    private static string[] Row(RecordRun run)
    {
        var text = ReportWords.Text;
        List<string> verdict = [text[run.IsTimely ? "Timing.Timely" : "Timing.NotTimely"]];
        if (!run.HasReachedCount)
            verdict.Add(text["Timing.TooFew"]);
        if (run.NotComplete > 0)
            verdict.Add(text.Get("Timing.NotComplete", run.NotComplete));
        if (run.WasInterrupted)
            verdict.Add(text["Timing.Interrupted"]);
        return
        [
            text.Get("Timing.RunName", ReportWords.Of("Block", run.Block), run.Run),
            text.Get("Timing.Counts", run.Right, run.Left),
            text.Get(
                "Timing.DwellValue",
                Range(run.ShortestDwellMilliseconds, run.LongestDwellMilliseconds),
                run.WantedDwellMilliseconds
            ),
            Range(run.ShortestGapMilliseconds, run.LongestGapMilliseconds),
            string.Join(", ", verdict),
        ];
    }

    private static string Range(long? from, long? to) =>
        (from, to) switch
        {
            (null, _) or (_, null) => ReportWords.Text["Unknown"],
            var (a, b) when a == b => $"{ReportWords.Number(a.Value)} ms",
            var (a, b) => ReportWords.Text.Get("Timing.Range", a, b),
        };
}
