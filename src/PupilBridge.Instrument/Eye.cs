namespace PupilBridge.Instrument;

/// <summary>One of the two eyes of the person examined, named from that person's side.</summary>
/// <remarks>There is no default eye: <c>default(Eye)</c> is no valid value, so that a forgotten assignment shows.</remarks>
public enum Eye
{
    /// <summary>The right eye (OD, oculus dexter).</summary>
    Right = 1,

    /// <summary>The left eye (OS, oculus sinister).</summary>
    Left = 2,
}

/// <summary>What can be said of an eye without knowing more than which one it is.</summary>
public static class EyeFacts
{
    /// <summary>Both eyes, right before left, as charts are written.</summary>
    public static ReadOnlySpan<Eye> Both => [Eye.Right, Eye.Left];

    /// <summary>The fellow eye.</summary>
    /// <param name="eye">One eye.</param>
    /// <returns>The other one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is neither right nor left.</exception>
    public static Eye Fellow(this Eye eye) =>
        eye switch
        {
            Eye.Right => Eye.Left,
            Eye.Left => Eye.Right,
            _ => throw new ArgumentOutOfRangeException(nameof(eye), eye, "An eye is right or left."),
        };

    /// <summary>The Latin abbreviation of the trade: OD for the right eye, OS for the left.</summary>
    /// <param name="eye">One eye.</param>
    /// <returns><c>OD</c> or <c>OS</c>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is neither right nor left.</exception>
    public static string Abbreviation(this Eye eye) =>
        eye switch
        {
            Eye.Right => "OD",
            Eye.Left => "OS",
            _ => throw new ArgumentOutOfRangeException(nameof(eye), eye, "An eye is right or left."),
        };
}
