using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;

namespace PupilBridge.Exchange.History;

/// <summary>What every plot over days has around it: days below, values at the left, and the words that name the lines underneath.</summary>
internal static class PlotFrame
{
    /// <summary>An empty plot.</summary>
    /// <param name="face">Its colours.</param>
    /// <param name="fontSize">The size of its words.</param>
    /// <param name="from">The first day shown, as the axis counts them.</param>
    /// <param name="to">The last day shown.</param>
    /// <param name="values">The axis of values, with its title and range; colours are put in here.</param>
    public static PlotModel Of(PlotFace face, double fontSize, double from, double to, LinearAxis values)
    {
        var model = new PlotModel
        {
            Background = face.Ground,
            TextColor = face.Ink,
            PlotAreaBorderColor = face.Ink,
            DefaultFont = "sans-serif",
            DefaultFontSize = fontSize,
        };
        var days = new DateTimeAxis
        {
            Position = AxisPosition.Bottom,
            StringFormat = "yyyy-MM-dd",
            IntervalLength = 90,
            // A day is the smallest thing that its words can name.
            MinimumMajorStep = 1,
            Minimum = from,
            Maximum = to,
        };
        values.Position = AxisPosition.Left;
        values.AxisTitleDistance = 8;
        values.TitleColor = face.Ink;
        foreach (var axis in new Axis[] { days, values })
        {
            axis.MajorGridlineStyle = LineStyle.Solid;
            axis.MajorGridlineColor = face.Grid;
            axis.TicklineColor = face.Ink;
            axis.TextColor = face.Ink;
            model.Axes.Add(axis);
        }

        model.Legends.Add(
            new Legend
            {
                // Below, in a row: at the side, the words of a longer language would be cut.
                LegendPosition = LegendPosition.BottomCenter,
                LegendPlacement = LegendPlacement.Outside,
                LegendOrientation = LegendOrientation.Horizontal,
                LegendTextColor = face.Ink,
                LegendFontSize = fontSize,
                LegendSymbolLength = 36,
            }
        );
        return model;
    }
}
