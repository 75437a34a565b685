using System.Globalization;

namespace PupilBridge.Exams.Entries;

/// <summary>A moment in UTC, in whole milliseconds since 1970-01-01T00:00:00Z. The default value is that moment.</summary>
/// <param name="UnixMilliseconds">Milliseconds since 1970, negative before.</param>
public readonly record struct UtcTime(long UnixMilliseconds) : IComparable<UtcTime>
{
    private static readonly long Earliest = DateTimeOffset.MinValue.ToUnixTimeMilliseconds();
    private static readonly long Latest = DateTimeOffset.MaxValue.ToUnixTimeMilliseconds();

    /// <summary>The moment of a date and time, cut to whole milliseconds.</summary>
    /// <param name="time">Any date and time with its offset.</param>
    /// <returns>The same moment.</returns>
    public static UtcTime From(DateTimeOffset time) => new(time.ToUnixTimeMilliseconds());

    /// <summary>The moment as date and time with offset zero; beyond the calendar, the calendar's nearest end.</summary>
    /// <returns>The same moment.</returns>
    public DateTimeOffset ToDateTimeOffset() =>
        DateTimeOffset.FromUnixTimeMilliseconds(Math.Clamp(UnixMilliseconds, Earliest, Latest));

    /// <inheritdoc/>
    public int CompareTo(UtcTime other) => UnixMilliseconds.CompareTo(other.UnixMilliseconds);

    /// <summary>The moment some milliseconds later (or, with a negative number, earlier).</summary>
    /// <param name="milliseconds">How many milliseconds; the result stays within what 64 bits hold.</param>
    /// <returns>The other moment.</returns>
    public UtcTime PlusMilliseconds(long milliseconds)
    {
        var sum = (Int128)UnixMilliseconds + milliseconds;
        return new((long)Int128.Clamp(sum, long.MinValue, long.MaxValue));
    }

    /// <summary>Milliseconds from an earlier moment to this one; negative if that one is later.</summary>
    /// <param name="earlier">The other moment.</param>
    /// <returns>The difference in milliseconds, within what 64 bits hold.</returns>
    public long MillisecondsSince(UtcTime earlier) =>
        (long)Int128.Clamp((Int128)UnixMilliseconds - earlier.UnixMilliseconds, long.MinValue, long.MaxValue);

    /// <summary>Whether the left moment is earlier.</summary>
    public static bool operator <(UtcTime left, UtcTime right) => left.UnixMilliseconds < right.UnixMilliseconds;

    /// <summary>Whether the left moment is later.</summary>
    public static bool operator >(UtcTime left, UtcTime right) => left.UnixMilliseconds > right.UnixMilliseconds;

    /// <summary>Whether the left moment is earlier or the same.</summary>
    public static bool operator <=(UtcTime left, UtcTime right) => left.UnixMilliseconds <= right.UnixMilliseconds;

    /// <summary>Whether the left moment is later or the same.</summary>
    public static bool operator >=(UtcTime left, UtcTime right) => left.UnixMilliseconds >= right.UnixMilliseconds;

    /// <summary>ISO 8601 with milliseconds and <c>Z</c>.</summary>
    public override string ToString() =>
        ToDateTimeOffset().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
