using System.Globalization;

namespace PupilBridge.Instrument;

/// <summary>A position on a scale, or a difference of two, in whole micrometres (µm).</summary>
/// <param name="Value">The number of micrometres; the default is 0 µm.</param>
public readonly record struct Micrometres(int Value) : IComparable<Micrometres>
{
    /// <summary>The same length in millimetres.</summary>
    public double Millimetres => Value / 1000.0;

    /// <inheritdoc/>
    public int CompareTo(Micrometres other) => Value.CompareTo(other.Value);

    /// <summary>The difference of two positions.</summary>
    public static Micrometres operator -(Micrometres left, Micrometres right) => new(left.Value - right.Value);

    /// <summary>The sum of a position and a length.</summary>
    public static Micrometres operator +(Micrometres left, Micrometres right) => new(left.Value + right.Value);

    /// <summary>Whether the left length is smaller.</summary>
    public static bool operator <(Micrometres left, Micrometres right) => left.Value < right.Value;

    /// <summary>Whether the left length is larger.</summary>
    public static bool operator >(Micrometres left, Micrometres right) => left.Value > right.Value;

    /// <summary>Whether the left length is smaller or equal.</summary>
    public static bool operator <=(Micrometres left, Micrometres right) => left.Value <= right.Value;

    /// <summary>Whether the left length is larger or equal.</summary>
    public static bool operator >=(Micrometres left, Micrometres right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value} µm");
}

/// <summary>
/// The instrument's own time: milliseconds since it was switched on. It never runs backwards within a boot and says
/// nothing about the time of day. Durations of stimuli are differences of ticks and of nothing else.
/// </summary>
/// <param name="Milliseconds">0 to 2^63 − 1; the default is the moment of switching on.</param>
public readonly record struct Tick(long Milliseconds) : IComparable<Tick>
{
    private const long LongestSpan = 315_576_000_000_000;

    /// <inheritdoc/>
    public int CompareTo(Tick other) => Milliseconds.CompareTo(other.Milliseconds);

    /// <summary>The time between two ticks of one boot; held at ten thousand years, so that no instrument's tick can fail a sum.</summary>
    public static TimeSpan operator -(Tick left, Tick right) =>
        TimeSpan.FromMilliseconds(Math.Clamp(left.Milliseconds - right.Milliseconds, -LongestSpan, LongestSpan));

    /// <summary>Whether the left tick is earlier.</summary>
    public static bool operator <(Tick left, Tick right) => left.Milliseconds < right.Milliseconds;

    /// <summary>Whether the left tick is later.</summary>
    public static bool operator >(Tick left, Tick right) => left.Milliseconds > right.Milliseconds;

    /// <summary>Whether the left tick is earlier or the same.</summary>
    public static bool operator <=(Tick left, Tick right) => left.Milliseconds <= right.Milliseconds;

    /// <summary>Whether the left tick is later or the same.</summary>
    public static bool operator >=(Tick left, Tick right) => left.Milliseconds >= right.Milliseconds;
}

/// <summary>The random 64-bit number that an instrument draws each time it is switched on.</summary>
/// <param name="Value">Any 64-bit number.</param>
public readonly record struct BootNumber(ulong Value)
{
    /// <summary>Sixteen upper-case hexadecimal digits, as on the wire.</summary>
    public override string ToString() => Value.ToString("X16", CultureInfo.InvariantCulture);
}

/// <summary>
/// An instrument's own serial number: 1 to 16 characters out of <c>A–Z a–z 0–9 - . _</c>. It identifies the instrument
/// across ports and replugging.
/// </summary>
public readonly record struct SerialNumber
{
    /// <summary>The most characters that a serial number may have.</summary>
    public const int MaxLength = 16;

    private readonly string? value;

    /// <summary>Checks and takes a serial number.</summary>
    /// <param name="value">The text.</param>
    /// <exception cref="ArgumentException">It is empty, too long, or holds another character.</exception>
    public SerialNumber(string value)
    {
        if (!IsValid(value))
        {
            throw new ArgumentException(
                $"A serial number has 1 to {MaxLength} characters out of A-Z, a-z, 0-9, '-', '.' and '_'; this is '{value}'.",
                nameof(value)
            );
        }

        this.value = value;
    }

    /// <summary>The text; <c>?</c> for the default value, which names no instrument.</summary>
    public string Value => value ?? "?";

    /// <summary>Whether a text can be a serial number.</summary>
    /// <param name="text">The text; null is none.</param>
    /// <returns>True if it can.</returns>
    public static bool IsValid(string? text)
    {
        if (string.IsNullOrEmpty(text) || text.Length > MaxLength)
        {
            return false;
        }

        foreach (var c in text)
        {
            if (!char.IsAsciiLetterOrDigit(c) && c is not ('-' or '.' or '_'))
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override string ToString() => Value;
}
