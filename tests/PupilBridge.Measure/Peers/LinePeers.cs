using System.Globalization;
using System.Text;
using System.Text.Json;
using PupilBridge.Instrument.Wire;
using Superpower;
using Superpower.Parsers;

namespace PupilBridge.Measure.Peers;

/// <summary>Readers of the same event lines.</summary>
internal static class LinePeers
{
    private static readonly TextParser<string> Field = Span.WithoutAny(c => c is ',' or '*' or '\n')
        .Select(span => span.ToStringValue());

    /// <summary>Type, fields, asterisk and eight hexadecimal digits, as docs/protocol.md has them.</summary>
    private static readonly TextParser<(string[] Fields, string Crc)> Line =
        from fields in Field.ManyDelimitedBy(Character.EqualTo(','))
        from star in Character.EqualTo('*')
        from crc in Character.HexDigit.Repeat(8)
        select (fields, new string(crc));

    /// <summary>Our framer and decoder: checksum compared, all fields decoded.</summary>
    public static int Ours(byte[] wire)
    {
        var good = 0;
        ReadOnlySpan<byte> rest = wire;
        while (!rest.IsEmpty)
        {
            var frame = LineFramer.Next(rest, resyncing: false);
            if (InstrumentLineDecoder.TryDecode(rest[..frame.Length], out var line, out _) && line.Event.Sequence > 0)
                good++;
            rest = rest[frame.Consumed..];
        }

        return good;
    }

    /// <summary>The parser combinator, checksum compared (by our own function), the numbers that all events have read.</summary>
    public static int Combinator(byte[] wire)
    {
        var good = 0;
        ReadOnlySpan<byte> rest = wire;
        while (!rest.IsEmpty)
        {
            var end = rest.IndexOf((byte)'\n');
            var bytes = rest[..end];
            rest = rest[(end + 1)..];
            var (fields, crc) = Line.Parse(Encoding.ASCII.GetString(bytes));
            if (
                uint.Parse(crc, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture) == LineCrc.Of(bytes[..^9])
                && ulong.TryParse(fields[1], NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out _)
                && long.Parse(fields[2], CultureInfo.InvariantCulture) > 0
                && long.Parse(fields[3], CultureInfo.InvariantCulture) >= 0
            )
                good++;
        }

        return good;
    }

    /// <summary>The same content as JSON arrays, one a line, through the framework's reader: every value looked at, no checksum.</summary>
    public static int Json(byte[] lines)
    {
        var good = 0;
        ReadOnlySpan<byte> rest = lines;
        while (!rest.IsEmpty)
        {
            var end = rest.IndexOf((byte)'\n');
            var reader = new Utf8JsonReader(rest[..end]);
            var values = 0;
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.Number)
                    values += reader.TryGetInt64(out _) ? 1 : 0;
                else if (reader.TokenType == JsonTokenType.String)
                    values += reader.ValueSpan.Length > 0 ? 1 : 0;
            }

            good += values > 4 ? 1 : 0;
            rest = rest[(end + 1)..];
        }

        return good;
    }

    /// <summary>The lines as JSON arrays.</summary>
    public static byte[] ToJson(byte[] wire)
    {
        var text = new StringBuilder();
        foreach (var line in Encoding.ASCII.GetString(wire).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var fields = line[..line.LastIndexOf('*')]
                .Split(',')
                .Select(
                    (field, n) =>
                        n > 1 && long.TryParse(field, CultureInfo.InvariantCulture, out _) ? field : $"\"{field}\""
                );
            text.Append('[').AppendJoin(',', fields).Append("]\n");
        }

        return Encoding.ASCII.GetBytes(text.ToString());
    }
}
