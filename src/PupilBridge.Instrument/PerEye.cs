namespace PupilBridge.Instrument;

/// <summary>
/// One value for the right eye and one for the left. The two are set by name
/// (<c>new PerEye&lt;T&gt; { Right = …, Left = … }</c>) and read by name or by <see cref="Eye"/>, never by position, so that a
/// slip in the order of arguments cannot swap them.
/// </summary>
/// <typeparam name="T">What is held for each eye.</typeparam>
public sealed record PerEye<T>
{
    /// <summary>The value of the right eye (OD).</summary>
    public required T Right { get; init; }

    /// <summary>The value of the left eye (OS).</summary>
    public required T Left { get; init; }

    /// <summary>The value of the eye asked for.</summary>
    /// <param name="eye">Right or left.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is neither right nor left.</exception>
    public T this[Eye eye] =>
        eye switch
        {
            Eye.Right => Right,
            Eye.Left => Left,
            _ => throw new ArgumentOutOfRangeException(nameof(eye), eye, "An eye is right or left."),
        };

    /// <summary>The same pair with the value of one eye replaced.</summary>
    /// <param name="eye">The eye whose value changes.</param>
    /// <param name="value">Its new value.</param>
    /// <returns>A new pair.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is neither right nor left.</exception>
    public PerEye<T> With(Eye eye, T value) =>
        eye switch
        {
            Eye.Right => this with { Right = value },
            Eye.Left => this with { Left = value },
            _ => throw new ArgumentOutOfRangeException(nameof(eye), eye, "An eye is right or left."),
        };

    /// <summary>Applies a function to both values.</summary>
    /// <typeparam name="TOut">The result for each eye.</typeparam>
    /// <param name="map">What to do with each eye's value.</param>
    /// <returns>The pair of results.</returns>
    public PerEye<TOut> Select<TOut>(Func<Eye, T, TOut> map)
    {
        ArgumentNullException.ThrowIfNull(map);
        return new PerEye<TOut> { Right = map(Eye.Right, Right), Left = map(Eye.Left, Left) };
    }
}
