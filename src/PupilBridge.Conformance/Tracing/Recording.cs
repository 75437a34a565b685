using System.Globalization;
using System.Text;
using PupilBridge.Conformance.Lines;

namespace PupilBridge.Conformance.Tracing;

/// <summary>
/// The text format of recorded lines, described in docs/firmware-check.md: one line of text for each line that crossed, so that
/// a person can read it and no byte is lost.
/// </summary>
public static class Recording
{
    /// <summary>How a recording begins.</summary>
    public const string FirstLine = "# PupilBridge line recording 1";

    /// <summary>The head of a recording.</summary>
    /// <param name="port">The port's name.</param>
    /// <param name="opened">When it was opened.</param>
    /// <returns>Lines that begin with <c>#</c>.</returns>
    public static IReadOnlyList<string> Head(string port, DateTimeOffset opened) =>
        [
            FirstLine,
            $"# port {Escaped(Encoding.UTF8.GetBytes(port))}",
            string.Create(CultureInfo.InvariantCulture, $"# opened {opened.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss.fff'Z'}"),
            "# seconds since then, < from the instrument or > from the host (+: no line end), the bytes",
        ];

    /// <summary>One line as text.</summary>
    /// <param name="line">The line.</param>
    /// <returns>Seconds, direction, bytes.</returns>
    public static string LineOf(WireLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var way = line.Way == LineWay.FromInstrument ? "<" : ">";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{line.At.TotalSeconds, 10:0.000} {way}{(line.IsEnded ? " " : "+")} {Escaped(line.Bytes.Span)}"
        );
    }

    /// <summary>Reads one line of a recording.</summary>
    /// <param name="text">The text.</param>
    /// <param name="line">The line that crossed; null for a comment or a blank line.</param>
    /// <returns>False if it is neither.</returns>
    public static bool TryRead(string text, out WireLine? line)
    {
        ArgumentNullException.ThrowIfNull(text);
        line = null;
        var rest = text.TrimStart(' ');
        if (rest.Length == 0 || rest[0] == '#')
        {
            return true;
        }

        var space = rest.IndexOf(' ', StringComparison.Ordinal);
        if (
            space < 1
            || rest.Length < space + 3
            || rest[space + 1] is not ('<' or '>')
            || rest[space + 2] is not (' ' or '+')
            || !TrySeconds(rest[..space], out var at)
        )
        {
            return false;
        }

        // An editor may have taken away the space at the end of a blank line.
        var content = rest.Length > space + 3 ? rest[(space + 4)..] : "";
        if ((rest.Length > space + 3 && rest[space + 3] != ' ') || !TryUnescape(content, out var bytes))
        {
            return false;
        }

        var way = rest[space + 1] == '<' ? LineWay.FromInstrument : LineWay.FromHost;
        line = new WireLine(at, way, bytes, IsEnded: rest[space + 2] == ' ');
        return true;
    }

    private static bool TrySeconds(string text, out TimeSpan at)
    {
        // A longer time than a year is no recording, and would overflow further down.
        var isTime =
            decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds)
            && seconds <= 366 * 86_400;
        at = isTime ? TimeSpan.FromTicks((long)(seconds * TimeSpan.TicksPerSecond)) : default;
        return isTime;
    }

    /// <summary>Bytes as a recording writes them.</summary>
    /// <param name="bytes">Any bytes.</param>
    /// <returns>Printable ASCII.</returns>
    public static string Escaped(ReadOnlySpan<byte> bytes)
    {
        var text = new StringBuilder(bytes.Length);
        foreach (var b in bytes)
        {
            if (b == (byte)'\\')
            {
                text.Append(@"\\");
            }
            else if (b is >= 0x20 and <= 0x7E)
            {
                text.Append((char)b);
            }
            else
            {
                text.Append(CultureInfo.InvariantCulture, $"\\x{b:X2}");
            }
        }

        return text.ToString();
    }

    private static bool TryUnescape(string text, out byte[] bytes)
    {
        var read = new List<byte>(text.Length);
        bytes = [];
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is < ' ' or > '~')
            {
                return false;
            }

            if (text[i] != '\\')
            {
                read.Add((byte)text[i]);
            }
            else if (i + 1 < text.Length && text[i + 1] == '\\')
            {
                read.Add((byte)'\\');
                i++;
            }
            else if (
                i + 3 < text.Length
                && text[i + 1] == 'x'
                && byte.TryParse(text.AsSpan(i + 2, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture, out var b)
            )
            {
                read.Add(b);
                i += 3;
            }
            else
            {
                return false;
            }
        }

        bytes = [.. read];
        return true;
    }
}
