using static PupilBridge.Conformance.Tests.Checks.Misbehaviour;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Firmware that sends wrong lines: identity, heartbeat, live positions, checks.</summary>
internal static class WrongLines
{
    public static IReadOnlyList<WrongFirmware> All { get; } =
    [
        new(
            "every fifth heartbeat has a wrong check",
            "lines.whole",
            () => EachFifthBeat(line => [line[..^1] + (line[^1] == '0' ? '1' : '0')])
        ),
        new(
            "a line beyond the limit",
            "lines.whole",
            () => EachFifthBeat(line => [line, Whole("FAULTY", new string('x', 150))])
        ),
        new(
            "a byte that no line may hold",
            "lines.whole",
            () => EachFifthBeat(_ => [PupilBridge.Conformance.Steps.RawHost.WithCheck("BEAT\t1")])
        ),
        new("a type of its own", "lines.grammar", () => EachFifthBeat(line => [line, Whole("HELLO", "1")])),
        new(
            "a heartbeat that contradicts itself",
            "lines.grammar",
            () => OfInstrument("BEAT", f => [f[0], f[1], f[2], "9", "3", f[5]])
        ),
        new("a stop is missing", "identity.complete", () => OfInstrument("STOP", f => f[1] == "3" ? null : f)),
        new(
            "the scales in the wrong order",
            "identity.complete",
            () => OfInstrument("SCALE", f => [f[0], f[1] == "R" ? "L" : "R", .. f[2..]])
        ),
        new(
            "the serial number of another instrument",
            "identity.serial",
            () => OfInstrument("ID", f => [f[0], f[1], "QA-0001", .. f[3..]])
        ),
        new(
            "declares a longer scale than it has",
            "scale.ends",
            () => OfInstrument("SCALE", f => [.. f[..6], Text(Number(f[6]) + 2000)])
        ),
        new(
            "declares a shorter scale than it has",
            "scale.ends",
            () => OfInstrument("SCALE", f => [.. f[..6], Text(Number(f[6]) - 2000)])
        ),
        new("a heartbeat waits for a second before it leaves", "line.prompt", LateBeats),
        new("answers a greeting three times out of four", "line.steady", FitfulAnswers),
        new("no heartbeat after the identity", "identity.beat", NoBeatAfterIdentity),
        new("says nothing at all", "identity.complete", () => new() { ChangesToHost = (_, _) => [] }),
        new("no heartbeat", "beat.each-second", () => OfInstrument("BEAT", _ => null)),
        new("a heartbeat every two seconds", "beat.each-second", EverySecondBeat),
        new(
            "a heartbeat that lags behind the events",
            "beat.true",
            () =>
                OfInstrument(
                    "BEAT",
                    f => Number(f[3]) < Number(f[4]) ? [f[0], f[1], f[2], f[3], Text(Number(f[4]) - 1), f[5]] : f
                )
        ),
        new(
            "no charge in its first heartbeat",
            "beat.true",
            () => OfInstrument("BEAT", f => f[2] == "0" ? [.. f[..5], "-"] : f)
        ),
        new("no charge though it has a battery", "beat.true", () => OfInstrument("BEAT", f => [.. f[..5], "-"])),
        new("ticks of heartbeats run backwards", "tick.forward", BackwardBeats),
        new(
            "a clock that is 2000 ppm fast",
            "tick.rate",
            () => WrongFirmware.Once(0, i => i.DriftPartsPerMillion = 2000)
        )
        {
            IsInside = true,
        },
        new("live positions twice as often", "pos.rate", TwicePositions),
        new(
            "live positions among events that wait",
            "pos.waits",
            () =>
                new()
                {
                    ChangesToHost = (line, _) =>
                        Fields(line) is ["EV", ..] e ? [line, Whole("POS", "R", "5000", e[3])] : [line],
                }
        ),
        new(
            "silent for four seconds",
            "endurance",
            () => new() { ChangesToHost = (line, now) => now.TotalSeconds is > 50 and < 54 ? [] : [line] }
        ),
        new("starts anew by itself", "endurance", () => WrongFirmware.Once(55, i => i.Reboot())) { IsInside = true },
    ];

    private static Misbehaviour EachFifthBeat(Func<string, IEnumerable<string>> change)
    {
        var count = 0;
        return new()
        {
            ChangesToHost = (line, _) => Fields(line)[0] == "BEAT" && ++count % 5 == 0 ? change(line) : [line],
        };
    }

    private static Misbehaviour NoBeatAfterIdentity()
    {
        var isDue = false;
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                var type = Fields(line)[0];
                var isDropped = type == "BEAT" && isDue;
                isDue = type == "SCALE";
                return isDropped ? [] : [line];
            },
        };
    }

    private static Misbehaviour LateBeats()
    {
        var count = 0;
        string? held = null;
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                if (Fields(line)[0] != "BEAT")
                {
                    return [line];
                }

                var before = held;
                held = ++count % 9 == 0 ? line : null;
                return (before, held) switch
                {
                    (_, not null) => [],
                    ({ } late, null) => [late, line],
                    _ => [line],
                };
            },
        };
    }

    private static Misbehaviour FitfulAnswers()
    {
        var count = 0;
        return OfHearing("WHO", f => ++count % 4 == 0 ? null : f);
    }

    private static Misbehaviour EverySecondBeat()
    {
        var count = 0;
        return OfInstrument("BEAT", f => ++count % 2 == 0 ? null : f);
    }

    private static Misbehaviour BackwardBeats()
    {
        var count = 0;
        return OfInstrument(
            "BEAT",
            f => ++count % 7 == 0 ? [f[0], f[1], Text(Math.Max(0, Number(f[2]) - 1500)), .. f[3..]] : f
        );
    }

    private static Misbehaviour TwicePositions() =>
        new()
        {
            ChangesToHost = (line, _) =>
                Fields(line) is ["POS", var eye, var at, var tick]
                    ? [line, Whole("POS", eye, at, Text(Number(tick) + 10))]
                    : [line],
        };
}
