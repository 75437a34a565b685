using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Report.Timeline;

/// <summary>The plot of an exam over time.</summary>
/// <param name="Timeline">What it shows; not empty.</param>
public sealed record TimelinePlot(ExamTimeline Timeline) : PlotDrawing
{
    /// <inheritdoc/>
    public override string Title => ReportWords.Text["Timeline.Title"];

    /// <inheritdoc/>
    internal override double Height(double letter) => TimelineDrawing.Height(letter);

    /// <inheritdoc/>
    internal override IReadOnlyList<PlotShape> Draw(double width, double letter) =>
        TimelineDrawing.Of(Timeline, width, letter);
}
