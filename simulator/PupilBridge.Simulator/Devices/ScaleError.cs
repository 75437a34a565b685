namespace PupilBridge.Simulator.Devices;

/// <summary>
/// How a scale misreads: of a distance d between two edges it tells offset + gain · d, in place of d. It is a truth that a calibration has
/// to find.
/// </summary>
/// <param name="OffsetMillimetres">The offset, in mm. At home a scale tells home all the same.</param>
/// <param name="Gain">The gain; 1 for none.</param>
public sealed record ScaleError(double OffsetMillimetres, double Gain)
{
    /// <summary>It reads what is so.</summary>
    public static ScaleError None { get; } = new(0, 1);

    /// <summary>What it tells of a distance, before its own step rounds that.</summary>
    /// <param name="millimetres">The distance, in mm.</param>
    /// <returns>The distance as told, in mm.</returns>
    public double Told(double millimetres) => OffsetMillimetres + (Gain * millimetres);
}
