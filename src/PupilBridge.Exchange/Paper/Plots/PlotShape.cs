namespace PupilBridge.Exchange.Paper.Plots;

/// <summary>How dark a shape is. On paper there is no colour: form and place tell things apart.</summary>
internal enum PlotTone
{
    /// <summary>Black.</summary>
    Ink = 1,

    /// <summary>Grey.</summary>
    Mid = 2,

    /// <summary>Light grey, behind everything.</summary>
    Faint = 3,

    /// <summary>White with a black outline.</summary>
    Hollow = 4,
}

/// <summary>Where words stand to their point.</summary>
internal enum PlotAnchor
{
    /// <summary>They begin there.</summary>
    Start = 1,

    /// <summary>Their middle is there.</summary>
    Middle = 2,

    /// <summary>They end there.</summary>
    End = 3,
}

/// <summary>A shape of a plot, in the units of its width and height from the upper left.</summary>
internal abstract record PlotShape;

/// <summary>A line.</summary>
internal sealed record PlotLine(double X1, double Y1, double X2, double Y2, PlotTone Tone) : PlotShape
{
    /// <summary>Whether it is broken into dashes.</summary>
    public bool IsDashed { get; init; }
}

/// <summary>A box.</summary>
internal sealed record PlotBox(double X, double Y, double Width, double Height, PlotTone Tone) : PlotShape;

/// <summary>A point.</summary>
internal readonly record struct PlotPoint(double X, double Y);

/// <summary>An area without an outline.</summary>
internal sealed record PlotArea(IReadOnlyList<PlotPoint> Corners, PlotTone Tone) : PlotShape;

/// <summary>A circle.</summary>
internal sealed record PlotCircle(double X, double Y, double Radius, PlotTone Tone) : PlotShape;

/// <summary>A square standing on its corner.</summary>
internal sealed record PlotDiamond(double X, double Y, double Radius) : PlotShape;

/// <summary>Words on a base line.</summary>
internal sealed record PlotWords(double X, double Y, string Text, PlotAnchor Anchor, bool IsBold) : PlotShape;
