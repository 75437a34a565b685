using System.Text.RegularExpressions;
using PupilBridge.Conformance.Steps;
using PupilBridge.Simulator.Devices;
using static PupilBridge.Conformance.Tests.Checks.Misbehaviour;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Firmware that takes a host's lines wrongly: what is broken, and commands.</summary>
internal static partial class WrongHearing
{
    public static IReadOnlyList<WrongFirmware> All { get; } =
    [
        new(
            "does not look at the check",
            "receive.bad-check",
            () =>
                new()
                {
                    ChangesFromHost = (line, _) => Checked().IsMatch(line) ? [RawHost.WithCheck(line[..^9])] : [line],
                }
        ),
        new(
            "waits for the rest of a cut line",
            "receive.cut",
            () =>
                SwallowingAfter(line =>
                    line.Length > 0 && !line.Contains('*', StringComparison.Ordinal) && line.Length < 100
                )
        ),
        new(
            "finds a line within a run",
            "receive.too-long",
            () =>
                new()
                {
                    ChangesFromHost = (line, _) =>
                        line.Length == 121 ? [] : [line[Math.Max(0, line.IndexOf("WHO,", StringComparison.Ordinal))..]],
                }
        ),
        new("loses the line after a run", "receive.too-long", () => SwallowingAfter(line => line.Length > 119)),
        new(
            "stumbles over a CR",
            "receive.carriage-return",
            () => new() { ChangesFromHost = (line, _) => line.EndsWith('\r') ? [] : [line] }
        ),
        new(
            "guesses a field that is missing",
            "receive.bad-field",
            () => OfHearing("WHO", f => f.Length == 3 ? [.. f, "1"] : f)
        ),
        new("takes the end of a read for the end of a line", "receive.pieces", () => new() { EndsLinesAtReads = true })
        {
            IsInside = true,
        },
        new("answers any type", "receive.unknown-type", () => OfHearing("TEMPERATURE", f => ["WHO", f[1], "1", "1"])),
        new("refuses further fields", "receive.further-fields", () => OfHearing("WHO", f => f.Length > 4 ? null : f)),
        new(
            "grants any version",
            "version.none",
            () => OfHearing("WHO", f => f is [_, var host, "98", _] ? ["WHO", host, "1", "1"] : f)
        ),
        new("answers no version", "version.none", () => OfInstrument("NOVERSION", _ => null)),
        new(
            "does whatever it is told",
            "command.unknown",
            () => OfInstrument("DONE", f => f is [_, _, _, "UNKNOWN", ..] ? [.. f[..3], "OK"] : f)
        ),
        new("does not answer commands", "command.unknown", () => OfInstrument("DONE", _ => null)),
        new(
            "takes trains out of range",
            "command.refused",
            () => OfInstrument("DONE", f => f is [_, _, _, "REFUSED", ..] ? [.. f[..3], "OK"] : f)
        ),
        new(
            "reads the fields of trains that it does not claim",
            "command.refused",
            () => OfInstrument("DONE", f => f is [_, _, _, "UNKNOWN"] ? [.. f[..3], "REFUSED"] : f)
        )
        {
            Model = InstrumentModels.QuayB,
        },
        new("takes trains that it does not claim", "command.refused", TakesUnclaimed)
        {
            Model = InstrumentModels.QuayB,
        },
        new("carries a repeated command out again", "command.once", CarriedOutAgain),
    ];

    [GeneratedRegex("^[^*]+\\*[0-9A-F]{8}$")]
    private static partial Regex Checked();

    private static Misbehaviour SwallowingAfter(Func<string, bool> isBad)
    {
        var isSwallowing = false;
        return new()
        {
            ChangesFromHost = (line, _) =>
            {
                if (isBad(line))
                {
                    isSwallowing = true;
                    return [line];
                }

                var isLost = isSwallowing && line.Length > 0;
                isSwallowing &= !isLost;
                return isLost ? [] : [line];
            },
        };
    }

    private static Misbehaviour TakesUnclaimed()
    {
        var trains = new HashSet<string>();
        return new()
        {
            ChangesFromHost = (line, _) =>
            {
                if (Fields(line) is ["CMD", _, var number, "TRAIN", "DIRECT", "3", "1000", "3000"])
                {
                    trains.Add(number);
                }

                return [line];
            },
            ChangesToHost = (line, _) =>
                Fields(line) is ["DONE", var host, var number, ..] && trains.Contains(number)
                    ? [Whole("DONE", host, number, "OK")]
                    : [line],
        };
    }

    /// <summary>Each command is one of its own to the instrument, whatever its number; the answer bears the number it was given.</summary>
    private static Misbehaviour CarriedOutAgain()
    {
        var given = new Dictionary<string, string>();
        var own = 4_100_000_000L;
        return new()
        {
            ChangesFromHost = (line, _) =>
            {
                if (Fields(line) is not ["CMD", var host, var number, .. var rest])
                {
                    return [line];
                }

                var drawn = Text(++own);
                given[drawn] = number;
                return [Whole(["CMD", host, drawn, .. rest])];
            },
            ChangesToHost = (line, _) =>
                Fields(line) is ["DONE", var host, var drawn, .. var rest] && given.TryGetValue(drawn, out var number)
                    ? [Whole(["DONE", host, number, .. rest])]
                    : [line],
        };
    }
}
