using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

/// <summary>
/// The decoder against a reader of the same grammar that was written the slow and plain way: split at commas, one regular
/// expression a field. They must agree on each line, good or spoiled, whether it can be read and what it says.
/// </summary>
public partial class DifferentialTests
{
    private static readonly string[] Oddities =
    [
        "",
        "-",
        "0",
        "00",
        "1",
        "+1",
        "-1",
        "7.5",
        " 7",
        "99999",
        "100000",
        "9007199254740992",
        "9007199254740993",
        "9223372036854775807",
        "9223372036854775808",
        "18446744073709551617",
        "R",
        "L",
        "r",
        "ON",
        "OFF",
        "IN",
        "OUT",
        "IDLE",
        "HOLD",
        "DIRECT",
        "NEAR",
        "00C0FFEE",
        "00000000",
        "00c0ffee",
        "8F3A11C02B77D4E9",
        "8F3A11C02B77D4EG",
        "GAP",
    ];

    [Fact]
    public void Decoder_and_plain_reader_agree_on_good_lines() =>
        Gens.InstrumentLine.Sample(line => Compare(Encoding.ASCII.GetString(Lines.Of(line)).TrimEnd('\n')[..^9]));

    [Fact]
    public void Decoder_and_plain_reader_agree_on_spoiled_lines() =>
        Gen.Select(Gens.InstrumentLine, Gen.Int[0, 11], Gen.OneOf(Gens.Any(Oddities), Gens.Text(0, 20)), Gen.Int[0, 3])
            .Sample(
                (line, place, oddity, how) =>
                {
                    var fields = Encoding.ASCII.GetString(Lines.Of(line)).TrimEnd('\n')[..^9].Split(',').ToList();
                    var at = Math.Min(place, fields.Count - 1);
                    if (how == 0)
                        fields[at] = oddity;
                    else if (how == 1)
                        fields.RemoveAt(at);
                    else if (how == 2)
                        fields.Insert(at, oddity);
                    else
                        fields.Add(oddity);
                    Compare(string.Join(',', fields));
                },
                iter: 30_000
            );

    private static void Compare(string body)
    {
        // A body that is too long is the framer's matter.
        if (body.Length == 0 || body.Length > WireLimits.MaxContentBytes - WireLimits.CheckBytes)
            return;
        var good = InstrumentLineDecoder.TryDecode(Lines.Sealed(body), out var line, out _);
        Assert.Equal(PlainReader.Read(body), good ? Told(line) : null);
    }

    private static string Told(InstrumentLine line) =>
        line.Kind switch
        {
            InstrumentLineKind.Unknown => "?",
            InstrumentLineKind.Event when line.Event.Kind <= InstrumentEventKind.Unreadable =>
                $"{line.Event.Kind} {line.Event.Boot} {line.Event.Sequence} {line.Event.Tick.Milliseconds}",
            // The encoder's form is the canonical one: it is how both say what they understood.
            _ => Encoding.ASCII.GetString(Lines.Of(line)).TrimEnd('\n')[..^9],
        };

    private static partial class PlainReader
    {
        private const string Eye = "[RL]";
        private const string Mode = "IDLE|MEASURE|SEQUENCE|HOLD";
        private const string Block = "-|DIRECT|SWINGSHORT|SWINGLONG|NEAR";
        private const string Number = "0|[1-9][0-9]*";
        private const string Boot = "[0-9A-F]{16}";
        private const string Host = "(?!00000000)[0-9A-F]{8}";

        // Each type: its fields as patterns, in order.
        private static readonly Dictionary<string, string[]> Types = new()
        {
            ["POS"] = [Eye, "P", "T"],
            ["BEAT"] = [Boot, "T", Number, Number, "-|" + Number],
            ["STOP"] = [Number, Mode, Block],
            ["SCALE"] = [Eye, "P", "IN|OUT", Number, "P", "P"],
            ["HELD"] = [Host, Number],
            ["NOVERSION"] = [Number, Number],
            ["DONE"] = [Host, Number, "OK|REFUSED|UNKNOWN|BUSY"],
            ["ID"] =
            [
                Number,
                "[A-Za-z0-9._-]{1,16}",
                ".{1,16}",
                ".{1,10}",
                Boot,
                "-|[A-Z]{1,13}",
                Number,
                Number,
                "-|" + Host,
            ],
        };

        private static readonly Dictionary<string, string[]> Kinds = new()
        {
            ["MODE"] = [Mode, Block, "DIAL|SELF"],
            ["EDGE"] = [Eye, "[NT]", "P"],
            ["REST"] = [Eye, "P"],
            ["LAMP"] = [Eye, "ON|OFF", "100|[1-9]?[0-9]"],
            ["OUTPUT"] = [Eye, "0|[1-9][0-9]{0,8}"],
            ["FIX"] = ["FAR|NEAR"],
            ["LENS"] = ["IN|OUT"],
            ["OFF"] = [],
            ["FAULT"] = ["[1-9][0-9]{0,3}", ".{0,40}"],
            ["GAP"] = [Number],
        };

        internal static string? Read(string body)
        {
            var fields = body.Split(',');
            if (fields[0] == "EV")
                return Event(fields);
            if (!Types.TryGetValue(fields[0], out var patterns))
                return "?";
            if (!Fit(fields.AsSpan(1), patterns))
                return null;
            return fields[0] switch
            {
                "BEAT" => Beat(fields),
                "STOP" => Within(fields[1], 1, 32) ? Known(fields, 3) : null,
                "SCALE" => ScaleLine(fields),
                "HELD" => Within(fields[2], 0, 999_999) ? Known(fields, 2) : null,
                "NOVERSION" => Within(fields[1], 1, 99) && Within(fields[2], Value(fields[1]), 99)
                    ? Known(fields, 2)
                    : null,
                "DONE" => Done(fields),
                "ID" => Identity(fields),
                _ => Known(fields, patterns.Length),
            };
        }

        private static string? Event(string[] f)
        {
            if (f.Length < 5 || !Fit(f.AsSpan(1), [Boot, Number, "T", ".+"]) || !Within(f[2], 1, 1L << 53))
                return null;
            var head = $"{f[1]} {f[2]} {f[3]}";
            if (f[4] == "ROOM")
            {
                if (f.Length > 6 && f[5] == "LUX" && IsMatch(f[6], Number) && Within(f[6], 0, 999_999_999))
                    return Known(f, 6);
                return f.Length > 5 && f[5] is "BRIGHT" or "DIM" ? Known(f, 5) : $"Unreadable {head}";
            }

            if (!Kinds.TryGetValue(f[4], out var patterns))
                return $"Unknown {head}";
            var fits = Fit(f.AsSpan(5), patterns) && (f[4] != "GAP" || Within(f[5], 1, Value(f[2])));
            return fits ? Known(f, 4 + patterns.Length) : $"Unreadable {head}";
        }

        private static string? Beat(string[] f)
        {
            var fits = Within(f[4], 0, 1L << 53) && Within(f[3], 1, Value(f[4]) + 1);
            return fits && (f[5] == "-" || Within(f[5], 0, 100)) ? Known(f, 5) : null;
        }

        private static string? ScaleLine(string[] f)
        {
            var (home, low, high) = (Value(f[2]), Value(f[5]), Value(f[6]));
            return Within(f[4], 1, 1000) && low < high && home >= low && home <= high ? Known(f, 6) : null;
        }

        private static string? Done(string[] f)
        {
            if (!Within(f[2], 1, uint.MaxValue) || (f.Length > 4 && f[4].Length > 40))
                return null;
            return f.Length > 4 && f[4].Length > 0 ? Known(f, 4) : Known(f, 3);
        }

        private static string? Identity(string[] f)
        {
            var fits = Within(f[1], 1, 99) && Within(f[7], 1, 32) && Within(f[8], 0, 1L << 53);
            if (!fits || (Value(f[8]) > 0) != (f[9] != "-"))
                return null;
            var letters = string.Concat("MLSPOFVBG".Where(f[6].Contains));
            f[6] = letters.Length == 0 ? "-" : letters;
            return Known(f, 9);
        }

        private static string Known(string[] fields, int count) => string.Join(',', fields.Take(count + 1));

        private static bool Fit(ReadOnlySpan<string> fields, string[] patterns)
        {
            for (var place = 0; place < patterns.Length; place++)
            {
                if (place >= fields.Length)
                    return false;
                var field = fields[place];
                var fits = patterns[place] switch
                {
                    "P" => IsMatch(field, Number) && Within(field, 0, 99_999),
                    "T" => IsMatch(field, Number) && Within(field, 0, long.MaxValue),
                    var pattern => IsMatch(field, pattern),
                };
                if (!fits)
                    return false;
            }

            return true;
        }

        private static bool IsMatch(string field, string pattern) => Regex.IsMatch(field, $"^(?:{pattern})\\z");

        private static Int128 Value(string field) => Int128.Parse(field, CultureInfo.InvariantCulture);

        private static bool Within(string field, Int128 low, Int128 high) =>
            field.Length < 30 && Value(field) >= low && Value(field) <= high;
    }
}
