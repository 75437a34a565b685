using PupilBridge.Exams.Calibration;

namespace PupilBridge.Exams.Tests.Calibration;

/// <summary>
/// JCGM 100:2008, Annex H.3: eleven readings of a thermometer with their corrections, in °C. Data and results read in three
/// independent reproductions.
/// </summary>
internal static class Thermometer
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
}
