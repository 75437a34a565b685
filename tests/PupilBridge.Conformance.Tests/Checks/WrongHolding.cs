using PupilBridge.Conformance.Steps;
using static PupilBridge.Conformance.Tests.Checks.Misbehaviour;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Firmware that sends again, forgets and holds wrongly.</summary>
internal static class WrongHolding
{
    private static readonly string Own = RawHost.Own;
    private static readonly string Other = RawHost.Other;

    public static IReadOnlyList<WrongFirmware> All { get; } =
    [
        new("does not send again when asked", "resend.asked", () => OfHearing("RESEND", _ => null)),
        new(
            "sends again from one too late",
            "resend.asked",
            () => OfHearing("RESEND", f => [.. f[..3], Text(Number(f[3]) + 1)])
        ),
        new(
            "sends everything when asked for nothing",
            "resend.past-last",
            () => OfHearing("RESEND", f => Number(f[3]) > 1000 ? [.. f[..3], "1"] : f)
        ),
        new("never sends again unasked", "resend.unasked", NeverUnasked),
        new(
            "sends again each second",
            "resend.unasked",
            () =>
                WrongFirmware.Every(
                    1,
                    (i, now) => WrongFirmware.Hear(i, $"RESEND,{i.Link.Holder},{i.Link.Boot},{i.Link.OldestKept}", now)
                )
        )
        {
            IsInside = true,
        },
        new("says nothing of what it forgot", "resend.forgotten", Forgetful),
        new("does not answer for what it forgot", "resend.forgotten", ForgetfulInSilence),
        new("never forgets", "ack.moves", () => OfHearing("ACK", f => f[3] == "0" ? f : [.. f[..3], "0"])),
        new(
            "forgets one too many",
            "ack.moves",
            () =>
                OfHearing(
                    "ACK",
                    f => f[1] == Own && Number(f[3]) is > 0 and < 500 ? [.. f[..3], Text(Number(f[3]) + 1)] : f
                )
        ),
        new("takes an ACK beyond the last for all", "ack.beyond", AckBeyond),
        new("takes an ACK of any boot", "ack.other-boot", AnyBoot),
        new("takes an ACK of any host", "ack.foreign", () => OfHearing("ACK", f => [f[0], Own, .. f[2..]])),
        new("takes a command of any host", "hold.foreign", () => OfHearing("CMD", f => [f[0], Own, .. f[2..]])),
        new("lets any host in", "hold.refused", () => OfHearing("WHO", f => ["TAKE", .. f[1..]])),
        new("refuses in silence", "hold.refused", () => OfInstrument("HELD", _ => null)),
        new("names the wrong holder", "hold.refused", () => OfInstrument("HELD", f => [f[0], Other, f[2]])),
        new(
            "refuses again and again",
            "hold.rate",
            () => new() { ChangesToHost = (line, _) => Fields(line)[0] == "HELD" ? [line, line] : [line] }
        ),
        new("cannot be taken over", "hold.taken", () => OfHearing("TAKE", f => ["WHO", .. f[1..]])),
        new("sends events to a host that fell silent", "hold.silent", NeverLapses) { IsInside = true },
        new("holds for ever", "hold.lapses", NeverLapses) { IsInside = true },
    ];

    private static Misbehaviour NeverLapses() =>
        WrongFirmware.Every(3, (i, now) => WrongFirmware.Hear(i, $"ACK,{i.Link.Holder},{i.Link.Boot},0", now));

    private static Misbehaviour NeverUnasked()
    {
        var asked = TimeSpan.Zero;
        var seen = new HashSet<string>();
        return new()
        {
            ChangesFromHost = (line, now) =>
            {
                asked = Fields(line)[0] is "WHO" or "TAKE" or "RESEND" ? now : asked;
                return [line];
            },
            ChangesToHost = (line, now) =>
                Fields(line) is not ["EV", _, var number, ..]
                || seen.Add(number)
                || now - asked < TimeSpan.FromSeconds(1.2)
                    ? [line]
                    : [],
        };
    }

    /// <summary>It answers from its oldest, and leaves out the heartbeat that tells why.</summary>
    private static Misbehaviour Forgetful()
    {
        var oldest = 1L;
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                oldest = Fields(line) is ["BEAT", _, _, var kept, ..] ? Number(kept) : oldest;
                return [line];
            },
            ChangesFromHost = (line, _) =>
                Fields(line) is ["RESEND", var host, var boot, var from] && Number(from) < oldest
                    ? [Whole("RESEND", host, boot, Text(oldest))]
                    : [line],
        };
    }

    /// <summary>What lies before its oldest it does not even answer.</summary>
    private static Misbehaviour ForgetfulInSilence()
    {
        var oldest = 1L;
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                oldest = Fields(line) is ["BEAT", _, _, var kept, ..] ? Number(kept) : oldest;
                return [line];
            },
            ChangesFromHost = (line, _) =>
                Fields(line) is ["RESEND", _, _, var from] && Number(from) < oldest ? [] : [line],
        };
    }

    private static Misbehaviour AckBeyond()
    {
        var last = 0L;
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                last = Fields(line) is ["BEAT", _, _, _, var number, ..] ? Number(number) : last;
                return [line];
            },
            ChangesFromHost = (line, _) =>
                Fields(line) is ["ACK", var host, var boot, var number] && Number(number) > last
                    ? [Whole("ACK", host, boot, Text(last))]
                    : [line],
        };
    }

    private static Misbehaviour AnyBoot()
    {
        var boot = "";
        return new()
        {
            ChangesToHost = (line, _) =>
            {
                boot = Fields(line) is ["BEAT", var own, ..] ? own : boot;
                return [line];
            },
            ChangesFromHost = (line, _) =>
                Fields(line) is ["ACK", var host, var given, var number] && given != boot
                    ? [Whole("ACK", host, boot, number)]
                    : [line],
        };
    }
}
