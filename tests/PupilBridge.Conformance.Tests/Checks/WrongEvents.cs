using PupilBridge.Simulator.Devices;
using static PupilBridge.Conformance.Tests.Checks.Misbehaviour;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Firmware that tells events wrongly.</summary>
internal static class WrongEvents
{
    public static IReadOnlyList<WrongFirmware> All { get; } =
    [
        new("the second event is never sent", "events.order", () => OfInstrument("EV", f => f[2] == "2" ? null : f)),
        new("no event is ever sent", "events.order", () => OfInstrument("EV", _ => null)),
        new("the first event is never sent", "events.order", () => OfInstrument("EV", f => f[2] == "1" ? null : f)),
        new(
            "the first event says that it came by itself",
            "events.first",
            () => OfInstrument("EV", f => f[2] == "1" ? [.. f[..^1], "SELF"] : f)
        ),
        new("the tick of the sending instead of the happening", "events.same", SendingTick),
        new(
            "an event of another boot",
            "events.boot",
            () => OfInstrument("EV", f => f[2] == "2" ? [f[0], "0123456789ABCDEF", .. f[2..]] : f)
        ),
        new(
            "ticks of events run backwards",
            "tick.forward",
            () => OfInstrument("EV", f => Number(f[2]) > 6 ? [.. f[..3], "3", .. f[4..]] : f)
        ),
        new("a memory for a hundred events", "overflow.gap", () => new())
        {
            Options = new() { KeptCapacity = 100 },
            IsInside = true,
        },
        new("loses events without a gap", "overflow.gap", () => OfInstrument("EV", f => f[4] == "GAP" ? null : f)),
        new("a kind of its own", "kinds.readable", () => WrongFirmware.Once(3, i => i.TellUnknown("TILT,3")))
        {
            IsInside = true,
        },
        new(
            "a dark lamp with a level",
            "kinds.readable",
            () => OfInstrument("EV", f => f is [.., "OFF", "0"] ? [.. f[..^1], "100"] : f)
        ),
        new("a light sensor that chatters", "kinds.room-rate", () => WrongFirmware.Once(3, i => i.ChatterRoom(12)))
        {
            IsInside = true,
        },
        new("marks without the ability M", "kinds.declared", () => Without('M')),
        new("light without the ability L", "kinds.declared", () => Without('L')),
        Untold("MODE", "kinds.mode", ["FIX", "FAR"], InstrumentModels.QuayA),
        Untold("REST", "kinds.rest", ["FIX", "FAR"], InstrumentModels.QuayA),
        Untold("LAMP", "kinds.lamp", ["FIX", "FAR"], InstrumentModels.QuayA),
        Untold("OUTPUT", "kinds.output", ["FIX", "FAR"], InstrumentModels.QuayB),
        new("the output of the other lamp", "kinds.output", () => OfInstrument("EV", OtherLamp))
        {
            Model = InstrumentModels.QuayB,
        },
        new("a dark lamp is measured", "kinds.output", DarkLamp) { Model = InstrumentModels.QuayB },
        new("output without the ability G", "kinds.declared", () => Without('G')) { Model = InstrumentModels.QuayB },
        Untold("EDGE", "kinds.edge", ["FIX", "FAR"], InstrumentModels.QuayA),
        Untold("ROOM", "kinds.room", ["FIX", "FAR"], InstrumentModels.QuayA),
        Untold("FIX", "kinds.fix", ["ROOM", "LUX", "4200"], InstrumentModels.QuayA),
        Untold("LENS", "kinds.lens", ["FIX", "FAR"], InstrumentModels.QuayB),
    ];

    /// <summary>Another kind in the place of one that it claims; the first event stays, or it would be found by that.</summary>
    private static WrongFirmware Untold(string kind, string key, string[] instead, InstrumentModel model) =>
        new(
            $"{kind} is never told",
            key,
            () => OfInstrument("EV", f => f[4] == kind && f[2] != "1" ? [.. f[..4], .. instead] : f)
        )
        {
            Model = model,
        };

    private static string[] OtherLamp(string[] f) => f[4] == "OUTPUT" ? [.. f[..5], f[5] == "R" ? "L" : "R", f[6]] : f;

    /// <summary>From the second time on, a lamp that should go on stays dark and is measured.</summary>
    private static Misbehaviour DarkLamp()
    {
        string? first = null;
        return OfInstrument(
            "EV",
            f =>
            {
                if (f is not [_, _, _, _, "LAMP", "R", "ON", ..])
                {
                    return f;
                }

                first ??= f[2];
                return f[2] == first ? f : [.. f[..4], "OUTPUT", "R", "3"];
            }
        );
    }

    private static Misbehaviour Without(char ability) =>
        OfInstrument("ID", f => [.. f[..6], f[6].Replace(ability.ToString(), "", StringComparison.Ordinal), .. f[7..]]);

    private static Misbehaviour SendingTick()
    {
        var times = new Dictionary<string, int>();
        return OfInstrument(
            "EV",
            f =>
            {
                times[f[2]] = times.GetValueOrDefault(f[2]) + 1;
                return times[f[2]] == 1 ? f : [.. f[..3], Text(Number(f[3]) + 1), .. f[4..]];
            }
        );
    }
}
