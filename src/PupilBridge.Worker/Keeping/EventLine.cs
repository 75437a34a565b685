using System.Globalization;

namespace PupilBridge.Worker.Keeping;

/// <summary>What can be read off an event's line as the journal keeps it, without decoding all of it.</summary>
internal static class EventLine
{
    /// <summary>The checksum at the end of a line; null if the line has none.</summary>
    public static uint? CrcOf(string line) =>
        line.Length > 9
        && line[^9] == '*'
        && uint.TryParse(
            line.AsSpan(line.Length - 8),
            NumberStyles.AllowHexSpecifier,
            CultureInfo.InvariantCulture,
            out var crc
        )
            ? crc
            : null;

    /// <summary>The kind of an event: the fifth field of its line.</summary>
    public static ReadOnlySpan<char> KindOf(string line)
    {
        var rest = line.AsSpan();
        for (var field = 0; field < 4; field++)
        {
            var comma = rest.IndexOf(',');
            if (comma < 0)
                return default;
            rest = rest[(comma + 1)..];
        }

        var end = rest.IndexOfAny(',', '*');
        return end < 0 ? rest : rest[..end];
    }
}
