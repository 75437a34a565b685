using System.Collections.Immutable;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Tests.Wire;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Links;

/// <summary>Drives the host's side of a link: lines go through the codec, the outputs of each act are collected.</summary>
internal sealed class HostRig
{
    internal HostLinkState State { get; private set; } = HostLinkState.New(Known.Host);

    internal TimeSpan Now { get; private set; }

    internal List<HostLinkOutput> All { get; } = [];

    /// <summary>A link that is connected to the known instrument, with a position in the journal.</summary>
    internal static HostRig Connected(
        long durable = 0,
        ImmutableDictionary<long, uint>? prints = null,
        bool switchedOff = false
    )
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present();
        rig.Place(durable, prints, switchedOff: switchedOff);
        Assert.Equal(HostLinkPhase.Connected, rig.State.Phase);
        rig.All.Clear();
        return rig;
    }

    internal ImmutableArray<HostLinkOutput> Give(HostLinkInput input)
    {
        var step = HostLink.Step(State, input);
        State = step.State;
        All.AddRange(step.Outputs);
        return step.Outputs;
    }

    internal ImmutableArray<HostLinkOutput> Open() => Give(new HostLinkInput.Opened(Now));

    internal ImmutableArray<HostLinkOutput> Close() => Give(new HostLinkInput.Closed(Now, "The cable is out."));

    internal ImmutableArray<HostLinkOutput> Hear(in InstrumentLine line)
    {
        var raw = Lines.Of(line).AsMemory()[..^1];
        Assert.True(InstrumentLineDecoder.TryDecode(raw.Span, out var read, out _));
        return Give(new HostLinkInput.LineArrived(read, raw, Now));
    }

    internal ImmutableArray<HostLinkOutput> Hear(string body) =>
        Give(new HostLinkInput.LineArrived(Lines.Decoded(body), Lines.Sealed(body), Now));

    internal ImmutableArray<HostLinkOutput> Hear(InstrumentEvent happened) => Hear(new InstrumentLine(happened));

    internal ImmutableArray<HostLinkOutput> HearBeat(long oldest, long last, BootNumber? boot = null) =>
        Hear(
            new InstrumentLine(
                new Heartbeat(boot ?? Known.Boot, new Tick((long)Now.TotalMilliseconds), oldest, last, null)
            )
        );

    internal ImmutableArray<HostLinkOutput> Present(
        BootNumber? boot = null,
        long acknowledged = 0,
        HostId by = default,
        string serial = "QA-0001"
    )
    {
        var known = Known.Identity;
        Hear(
            new InstrumentLine(
                new IdentityHead(
                    1,
                    AsciiText.From(serial),
                    AsciiText.From(known.Model),
                    AsciiText.From(known.Firmware),
                    boot ?? Known.Boot,
                    known.Abilities,
                    (byte)known.Stops.Length,
                    acknowledged,
                    by
                )
            )
        );
        foreach (var stop in known.Stops)
            Hear(new InstrumentLine(stop));
        Hear(new InstrumentLine(new EyeScale(Eye.Right, known.Scales.Right)));
        return Hear(new InstrumentLine(new EyeScale(Eye.Left, known.Scales.Left)));
    }

    internal ImmutableArray<HostLinkOutput> Place(
        long durable,
        ImmutableDictionary<long, uint>? prints = null,
        BootNumber? boot = null,
        bool switchedOff = false,
        params ImmutableArray<OpenBoot> open
    ) =>
        Give(
            new HostLinkInput.PositionKnown(
                boot ?? Known.Boot,
                durable,
                switchedOff,
                prints ?? Known.NoPrints,
                open.IsDefault ? [] : open,
                Now
            )
        );

    internal ImmutableArray<HostLinkOutput> MakeDurable(long sequence) =>
        Give(new HostLinkInput.MadeDurable(Known.Boot, sequence, Now));

    /// <summary>Lets time pass, stopping at each moment at which the link wants to act; heartbeats only on request.</summary>
    internal ImmutableArray<HostLinkOutput> Wait(double seconds)
    {
        var (until, from) = (Now + TimeSpan.FromSeconds(seconds), All.Count);
        for (var acts = 0; State.NextDue is { } due && due <= until; acts++)
        {
            Assert.True(acts < 10_000, "The link never comes to rest.");
            Now = due > Now ? due : Now;
            Give(new HostLinkInput.TimePassed(Now));
        }

        Now = until;
        Give(new HostLinkInput.TimePassed(Now));
        return [.. All.Skip(from)];
    }
}

internal static class HostOutputs
{
    internal static HostLine[] Sent(this IEnumerable<HostLinkOutput> outputs) =>
        [.. outputs.OfType<HostLinkOutput.Send>().Select(s => s.Line)];

    internal static long[] Accepted(this IEnumerable<HostLinkOutput> outputs) =>
        [.. outputs.OfType<HostLinkOutput.Accept>().Select(a => a.Event.Sequence)];

    internal static HostLinkOutput.Lost[] Losses(this IEnumerable<HostLinkOutput> outputs) =>
        [.. outputs.OfType<HostLinkOutput.Lost>()];
}
