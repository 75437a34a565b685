namespace PupilBridge.Exams.Statistics;

/// <summary>A confidence interval for 95 %.</summary>
/// <param name="Low">Its lower end.</param>
/// <param name="High">Its upper end.</param>
public readonly record struct Interval(double Low, double High)
{
    /// <summary>An interval that reaches as far down as up.</summary>
    /// <param name="middle">Its middle.</param>
    /// <param name="halfWidth">How far it reaches.</param>
    /// <returns>The interval.</returns>
    public static Interval About(double middle, double halfWidth) => new(middle - halfWidth, middle + halfWidth);
}
