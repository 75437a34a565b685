using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Hl7v2;

/// <summary>
/// Text within HL7 v2 messages (version 2.5.1, chapter 2.7, "Use of escape sequences in text fields"): the five delimiters as
/// <c>\F\ \S\ \T\ \R\ \E\</c>, control characters as <c>\Xhh\</c>, so that no text of a person can end a field or a segment.
/// </summary>
public static class Hl7Text
{
    /// <summary>Between segments.</summary>
    public const char SegmentEnd = '\r';

    /// <summary>Escapes a text.</summary>
    /// <param name="text">The text; null counts as empty.</param>
    public static string Escape(string? text)
    {
        var escaped = new StringBuilder();
        foreach (var letter in text ?? "")
        {
            _ = letter switch
            {
                '|' => escaped.Append(@"\F\"),
                '^' => escaped.Append(@"\S\"),
                '&' => escaped.Append(@"\T\"),
                '~' => escaped.Append(@"\R\"),
                '\\' => escaped.Append(@"\E\"),
                < ' ' or '\u007f' => escaped.Append(CultureInfo.InvariantCulture, $@"\X{(int)letter:X2}\"),
                _ => escaped.Append(letter),
            };
        }

        return escaped.ToString();
    }

    /// <summary>Components of a field, each escaped; empty ones at the end are left out.</summary>
    /// <param name="parts">The parts.</param>
    public static string Components(params string?[] parts) => string.Join('^', parts.Select(Escape)).TrimEnd('^');

    /// <summary>A time of a record, to the millisecond, in UTC.</summary>
    /// <param name="at">The time.</param>
    public static string Time(DateTimeOffset at) =>
        at.ToUniversalTime().ToString("yyyyMMddHHmmss.fff'+0000'", CultureInfo.InvariantCulture);
}
