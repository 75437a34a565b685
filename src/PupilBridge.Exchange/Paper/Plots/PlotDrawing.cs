namespace PupilBridge.Exchange.Paper.Plots;

/// <summary>A plot that draws itself for any width and letter size, for paper and page alike.</summary>
public abstract record PlotDrawing
{
    /// <summary>What it is called, in a few words.</summary>
    public abstract string Title { get; }

    /// <summary>How high it is.</summary>
    /// <param name="letter">The height of letters; the result is in the same unit.</param>
    internal abstract double Height(double letter);

    /// <summary>Draws.</summary>
    /// <param name="width">The width.</param>
    /// <param name="letter">The height of letters, in the same unit.</param>
    /// <returns>The shapes, from back to front.</returns>
    internal abstract IReadOnlyList<PlotShape> Draw(double width, double letter);
}
