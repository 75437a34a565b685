using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>
/// The straight line y = y1 + y2·(x − x0) through readings by least squares, with its uncertainties and their covariance,
/// as JCGM 100:2008, Annex H.3, calibrates a thermometer. All readings weigh the same. Sums are of deviations from the
/// means and keep what rounding drops, so that large numbers with small differences cost no digits.
/// </summary>
public sealed class LineFit
{
    private readonly Centre x;
    private readonly Centre y;

    private LineFit(double origin, Centre x, Centre y, double squaresOfX, double slope)
    {
        (Origin, this.x, this.y, SquaresOfX, Slope) = (origin, x, y, squaresOfX, slope);
    }

    /// <summary>Where the line is stated, x0.</summary>
    public double Origin { get; }

    /// <summary>How many readings, n.</summary>
    public required int Count { get; init; }

    /// <summary>The line's value at the origin, y1.</summary>
    public double Intercept => At(Origin);

    /// <summary>The line's slope, y2.</summary>
    public double Slope { get; }

    /// <summary>The standard uncertainty of y1.</summary>
    public double InterceptUncertainty => UncertaintyAt(Origin);

    /// <summary>The standard uncertainty of y2.</summary>
    public double SlopeUncertainty => ResidualDeviation / Math.Sqrt(SquaresOfX);

    /// <summary>The covariance of y1 and y2.</summary>
    public double Covariance => x.From(Origin) * SlopeUncertainty * SlopeUncertainty;

    /// <summary>The correlation of y1 and y2; it depends on where the readings stand, not on their scatter.</summary>
    public double Correlation
    {
        get
        {
            var back = x.From(Origin);
            return back / Math.Sqrt((SquaresOfX / Count) + (back * back));
        }
    }

    /// <summary>The standard deviation s of the residuals, with n − 2 degrees of freedom.</summary>
    public double ResidualDeviation => Math.Sqrt(SquaresOfResiduals / DegreesOfFreedom);

    /// <summary>The sum of the squared residuals.</summary>
    public required double SquaresOfResiduals { get; init; }

    /// <summary>The sum of the squared deviations of y from its mean.</summary>
    public required double SquaresOfY { get; init; }

    /// <summary>The sum of the squared deviations of x from its mean.</summary>
    public double SquaresOfX { get; }

    /// <summary>The degrees of freedom ν = n − 2.</summary>
    public int DegreesOfFreedom => Count - 2;

    /// <summary>The share of y's variation that the line explains; not a number where y does not vary.</summary>
    public double RSquared => SquaresOfY > 0 ? 1 - (SquaresOfResiduals / SquaresOfY) : double.NaN;

    /// <summary>The line's value anywhere.</summary>
    /// <param name="at">Where.</param>
    /// <returns>y.</returns>
    public double At(double at) => y.Mean + Math.FusedMultiplyAdd(Slope, x.From(at), y.Rest);

    /// <summary>The standard uncertainty of the line's value anywhere, from the scatter of the readings alone.</summary>
    /// <param name="at">Where.</param>
    /// <returns>u, in the unit of y.</returns>
    public double UncertaintyAt(double at)
    {
        var away = x.From(at);
        return ResidualDeviation * Math.Sqrt((1.0 / Count) + (away * away / SquaresOfX));
    }

    /// <summary>How far a reading lies above the line.</summary>
    /// <param name="point">The reading.</param>
    /// <returns>Its y minus the line's.</returns>
    public double ResidualOf(CalibrationPoint point) => Math.FusedMultiplyAdd(-Slope, x.From(point.X), y.From(point.Y));

    /// <summary>Fits the line.</summary>
    /// <param name="points">The readings, at least three at three or more places.</param>
    /// <param name="origin">Where to state the line, x0.</param>
    /// <returns>The line.</returns>
    /// <exception cref="StatisticsRefusedException">
    /// <see cref="CalibrationReadings.Check"/> found the readings unfit for a line.
    /// </exception>
    public static LineFit Of(IReadOnlyList<CalibrationPoint> points, double origin = 0)
    {
        CalibrationReadings.Check(points);
        var x = Centre.Of([.. points.Select(point => point.X)]);
        var y = Centre.Of([.. points.Select(point => point.Y)]);
        var (xx, xy, yy) = (new CompensatedSum(), new CompensatedSum(), new CompensatedSum());
        foreach (var point in points)
        {
            var (fromX, fromY) = (x.From(point.X), y.From(point.Y));
            xx.AddProduct(fromX, fromX);
            xy.AddProduct(fromX, fromY);
            yy.AddProduct(fromY, fromY);
        }

        var slope = xy.Value / xx.Value;
        var left = new CompensatedSum();
        foreach (var point in points)
        {
            var residual = Math.FusedMultiplyAdd(-slope, x.From(point.X), y.From(point.Y));
            left.AddProduct(residual, residual);
        }

        return new(origin, x, y, xx.Value, slope)
        {
            Count = points.Count,
            SquaresOfResiduals = left.Value,
            SquaresOfY = yy.Value,
        };
    }
}
