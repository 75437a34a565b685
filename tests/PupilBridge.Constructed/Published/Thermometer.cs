using PupilBridge.Exams.Calibration;

namespace PupilBridge.Constructed.Published;

/// <summary>
/// JCGM 100:2008, Annex H.3: eleven readings of a thermometer with their corrections, in °C. Data and results read in three
/// independent reproductions.
/// </summary>
public static class Thermometer
{
    public const double Origin = 20;

    public static IReadOnlyList<CalibrationPoint> Points { get; } =
    [
        new(21.521, -0.171),
        new(22.012, -0.169),
        new(22.512, -0.166),
        new(23.003, -0.159),
        new(23.507, -0.164),
        new(23.999, -0.165),
        new(24.513, -0.156),
        new(25.002, -0.157),
        new(25.503, -0.159),
        new(26.010, -0.161),
        new(26.511, -0.160),
    ];

    /// <summary>Fitted correction and residual of each reading, as printed.</summary>
    public static IReadOnlyList<(double Fitted, double Residual)> Printed { get; } =
    [
        (-0.1679, -0.0031),
        (-0.1668, -0.0022),
        (-0.1657, -0.0003),
        (-0.1646, +0.0056),
        (-0.1635, -0.0005),
        (-0.1625, -0.0025),
        (-0.1614, +0.0054),
        (-0.1603, +0.0033),
        (-0.1592, +0.0002),
        (-0.1581, -0.0029),
        (-0.1570, -0.0030),
    ];

    /// <summary>
    /// The results worked out from the printed readings with exact fractions, beside what a fit of <see cref="Points"/> gives. They agree
    /// with those that other programs publish, as far as these go.
    /// </summary>
    public static IReadOnlyList<(string Value, double Reference, double Found)> Compare(LineFit fit)
    {
        var at30 = new CalibrationLine(fit, CommonOffset.None).Predict(30);
        return
        [
            ("y1", -0.171203790131349977, fit.Intercept),
            ("u(y1)", 0.00287759783515995371, fit.InterceptUncertainty),
            ("y2", 0.00218269773988727797, fit.Slope),
            ("u(y2)", 0.000667938773227831702, fit.SlopeUncertainty),
            ("r(y1, y2)", -0.930429603093445881, fit.Correlation),
            ("s", 0.00349756396350528406, fit.ResidualDeviation),
            ("b(30)", -0.149376812732477197, at30.Y),
            ("u(b(30))", 0.00413859575285494741, at30.StandardUncertainty),
        ];
    }

    /// <summary>The results as the guide prints them (H.3.3 and H.3.4), beside what a fit gives to as many places.</summary>
    public static IReadOnlyList<(string Value, string Printed, string Found)> ComparePrinted(LineFit fit)
    {
        var at30 = new CalibrationLine(fit, CommonOffset.None).Predict(30);
        string Text(double value, int places) =>
            value.ToString($"F{places}", System.Globalization.CultureInfo.InvariantCulture);
        return
        [
            ("y1", "-0.1712", Text(fit.Intercept, 4)),
            ("u(y1)", "0.0029", Text(fit.InterceptUncertainty, 4)),
            ("y2", "0.00218", Text(fit.Slope, 5)),
            ("u(y2)", "0.00067", Text(fit.SlopeUncertainty, 5)),
            ("r(y1, y2)", "-0.930", Text(fit.Correlation, 3)),
            ("s", "0.0035", Text(fit.ResidualDeviation, 4)),
            ("b(30)", "-0.1494", Text(at30.Y, 4)),
            ("u(b(30))", "0.0041", Text(at30.StandardUncertainty, 4)),
        ];
    }
}
