using PupilBridge.Exams.Calibration;

namespace PupilBridge.Constructed.Published;

/// <summary>
/// NIST Statistical Reference Datasets, linear regression, Norris (lower difficulty): calibration of ozone monitors. Data
/// and certified values read in several reproductions of the file and computed again with rational arithmetic.
/// </summary>
public static class Norris
{
    public const double B0 = -0.262323073774029;
    public const double B0Deviation = 0.232818234301152;
    public const double B1 = 1.00211681802045;
    public const double B1Deviation = 0.429796848199937E-03;
    public const double ResidualDeviation = 0.884796396144373;
    public const double RSquared = 0.999993745883712;
    public const double RegressionSquares = 4255954.13232369;
    public const double ResidualSquares = 26.6173985294224;
    public const double ResidualMeanSquare = 0.782864662630069;
    public const double F = 5436385.54079785;

    private static readonly double[] PairsYX =
    [
        0.1,
        0.2,
        338.8,
        337.4,
        118.1,
        118.2,
        888.0,
        884.6,
        9.2,
        10.1,
        228.1,
        226.5,
        668.5,
        666.3,
        998.5,
        996.3,
        449.1,
        448.6,
        778.9,
        777.0,
        559.2,
        558.2,
        0.3,
        0.4,
        0.1,
        0.6,
        778.1,
        775.5,
        668.8,
        666.9,
        339.3,
        338.0,
        448.9,
        447.5,
        10.8,
        11.6,
        557.7,
        556.0,
        228.3,
        228.1,
        998.0,
        995.8,
        888.8,
        887.6,
        119.6,
        120.2,
        0.3,
        0.3,
        0.6,
        0.3,
        557.6,
        556.8,
        339.3,
        339.1,
        888.0,
        887.2,
        998.5,
        999.0,
        778.9,
        779.0,
        10.2,
        11.1,
        117.6,
        118.3,
        228.9,
        229.2,
        668.4,
        669.1,
        449.2,
        448.9,
        0.2,
        0.5,
    ];

    public static IReadOnlyList<CalibrationPoint> Points { get; } =
    [.. PairsYX.Chunk(2).Select(pair => new CalibrationPoint(pair[1], pair[0]))];

    /// <summary>Every certified value beside what a fit of <see cref="Points"/> gives.</summary>
    public static IReadOnlyList<(string Value, double Certified, double Found)> Compare(LineFit fit)
    {
        var explained = fit.SquaresOfY - fit.SquaresOfResiduals;
        var mean = fit.SquaresOfResiduals / fit.DegreesOfFreedom;
        return
        [
            ("B0", B0, fit.Intercept),
            ("sd of B0", B0Deviation, fit.InterceptUncertainty),
            ("B1", B1, fit.Slope),
            ("sd of B1", B1Deviation, fit.SlopeUncertainty),
            ("residual sd", ResidualDeviation, fit.ResidualDeviation),
            ("R squared", RSquared, fit.RSquared),
            ("regression squares", RegressionSquares, explained),
            ("residual squares", ResidualSquares, fit.SquaresOfResiduals),
            ("residual mean square", ResidualMeanSquare, mean),
            ("F", F, explained / mean),
        ];
    }
}
