using PupilBridge.Simulator;

namespace PupilBridge.Cohort.Calibrations;

/// <summary>One scale of one trial: it reads diameters as the truth says.</summary>
/// <param name="truth">What it is drawn from.</param>
/// <param name="chance">What draws.</param>
internal sealed class SimulatedScale(ScaleTruth truth, Chance chance)
{
    private const double Middle = 5;
    private readonly double offset = truth.Offset * chance.NextGaussian();
    private readonly double slope = truth.Slope * chance.NextGaussian();

    /// <summary>Something is put before it: how far off the straight line the scale is there, and where its first edge lies, in mm.</summary>
    public (double Bend, double FirstEdge) Put() =>
        (truth.Straightness * chance.NextGaussian(), chance.NextBetween(0, 1));

    /// <summary>Reads a true diameter.</summary>
    /// <param name="diameter">The diameter, in mm.</param>
    /// <param name="put">How it lies.</param>
    public double Read(double diameter, (double Bend, double FirstEdge) put)
    {
        // The diameter is what is indicated plus the line's correction there.
        var indicated = ((diameter - offset + (slope * Middle)) / (1 + slope)) + put.Bend;
        var first = truth.IsHeldInPlace ? put.FirstEdge : chance.NextBetween(0, 1);
        return Stepped(first + indicated + (truth.Repeatability * chance.NextGaussian())) - Stepped(first);
    }

    private double Stepped(double position)
    {
        var step = truth.StepMicrometres / 1000.0;
        return step > 0 ? Math.Round(position / step) * step : position;
    }
}
