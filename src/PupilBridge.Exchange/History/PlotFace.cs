using OxyPlot;

namespace PupilBridge.Exchange.History;

/// <summary>The colours of a plot. Eyes and lights differ in markers and line styles as well: colour alone says nothing.</summary>
/// <param name="Ground">Behind everything.</param>
/// <param name="Ink">Axes and words.</param>
/// <param name="Grid">Lines behind the points.</param>
/// <param name="Right">The right eye.</param>
/// <param name="Left">The left eye.</param>
internal sealed record PlotFace(OxyColor Ground, OxyColor Ink, OxyColor Grid, OxyColor Right, OxyColor Left)
{
    /// <summary>For darkened rooms.</summary>
    public static PlotFace Dark { get; } =
        new(
            OxyColor.Parse("#0d0907"),
            OxyColor.Parse("#ae7b4d"),
            OxyColor.Parse("#3a2a1e"),
            OxyColor.Parse("#b5792c"),
            OxyColor.Parse("#6f859e")
        );

    /// <summary>For review and paper.</summary>
    public static PlotFace Light { get; } =
        new(
            OxyColor.Parse("#ffffff"),
            OxyColor.Parse("#3a2f28"),
            OxyColor.Parse("#ddd3ca"),
            OxyColor.Parse("#9a4a00"),
            OxyColor.Parse("#1f4f86")
        );
}
