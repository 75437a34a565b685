using System.Globalization;

namespace PupilBridge.Exchange.Tables;

/// <summary>One value of a table. An empty one says that there is nothing to say: never that something is normal.</summary>
public readonly record struct Cell
{
    private readonly string? text;
    private readonly decimal number;
    private readonly State state;

    private Cell(State state, string? text, decimal number) =>
        (this.state, this.text, this.number) = (state, text, number);

    private enum State : byte
    {
        Empty,
        Text,
        Number,
        True,
        False,
    }

    /// <summary>Nothing.</summary>
    public static Cell Empty => default;

    /// <summary>Whether there is nothing.</summary>
    public bool IsEmpty => state == State.Empty;

    /// <summary>Whether it is a number.</summary>
    public bool IsNumber => state == State.Number;

    /// <summary>Whether it is a yes or no.</summary>
    public bool IsYesNo => state is State.True or State.False;

    /// <summary>The number; 0 for others.</summary>
    public decimal Number => number;

    /// <summary>The yes or no; false for others.</summary>
    public bool IsYes => state == State.True;

    /// <summary>A text, word, time or day; an empty one is nothing.</summary>
    /// <param name="value">The text.</param>
    public static Cell Of(string? value) => string.IsNullOrEmpty(value) ? default : new(State.Text, value, 0);

    /// <summary>A number.</summary>
    /// <param name="value">The number; null for nothing.</param>
    public static Cell Of(long? value) => value is { } known ? new(State.Number, null, known) : default;

    /// <summary>A length in micrometres, given in millimetres.</summary>
    /// <param name="micrometres">The length in micrometres; null for nothing.</param>
    public static Cell Millimetres(int? micrometres) =>
        micrometres is { } known ? new(State.Number, null, known / 1000m) : default;

    /// <summary>A time in milliseconds, given in seconds.</summary>
    /// <param name="milliseconds">The time in milliseconds.</param>
    public static Cell Milliseconds(long milliseconds) => new(State.Number, null, milliseconds / 1000m);

    /// <summary>A yes or no.</summary>
    /// <param name="value">Yes or no; null for nothing.</param>
    public static Cell Of(bool? value) => value is { } known ? new(known ? State.True : State.False, null, 0) : default;

    /// <summary>A day.</summary>
    /// <param name="value">The day; null for nothing.</param>
    public static Cell Of(DateOnly? value) => Of(value?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));

    /// <summary>A moment, in UTC.</summary>
    /// <param name="value">The moment; null for nothing.</param>
    public static Cell Of(DateTimeOffset? value) =>
        Of(value?.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));

    /// <summary>The value as text with a point; empty for nothing.</summary>
    public override string ToString() =>
        state switch
        {
            State.Text => text!,
            State.Number => number.ToString("0.###", CultureInfo.InvariantCulture),
            State.True => "true",
            State.False => "false",
            _ => "",
        };
}
