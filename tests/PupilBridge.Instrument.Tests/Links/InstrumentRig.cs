using System.Collections.Immutable;
using System.Text;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Links;

/// <summary>Drives the instrument's side of a link; what it sends is read back through the codec.</summary>
internal sealed class InstrumentRig
{
    internal InstrumentRig(
        int capacity = 512,
        int? bytesPerSecond = null,
        int highestVersion = 1,
        int lowestVersion = 1
    ) =>
        State = InstrumentLinkState.New(
            new InstrumentLinkSetup
            {
                Identity = Known.Identity,
                KeptCapacity = capacity,
                BytesPerSecond = bytesPerSecond,
                LowestVersion = lowestVersion,
                HighestVersion = highestVersion,
            }
        );

    internal InstrumentLinkState State { get; private set; }

    internal TimeSpan Now { get; private set; }

    internal Tick Tick => new((long)Now.TotalMilliseconds);

    /// <summary>An instrument that is on and greeted by the known host.</summary>
    internal static InstrumentRig Greeted(int capacity = 512, int? bytesPerSecond = null)
    {
        var rig = new InstrumentRig(capacity, bytesPerSecond);
        rig.SwitchOn();
        rig.Hear(HostLine.Who(Known.Host, 1, 1));
        return rig;
    }

    internal string[] Give(InstrumentLinkInput input) => Said(GiveRaw(input));

    internal ImmutableArray<InstrumentLinkOutput> GiveRaw(InstrumentLinkInput input)
    {
        var step = InstrumentLink.Step(State, input);
        State = step.State;
        return step.Outputs;
    }

    internal string[] SwitchOn(BootNumber? boot = null) =>
        Give(new InstrumentLinkInput.SwitchedOn(boot ?? Known.Boot, Now, Tick));

    internal string[] Hear(HostLine line) => Give(new InstrumentLinkInput.HostLineArrived(line, Now, Tick));

    internal string[] Happen(int micrometres = 5_000) =>
        Give(
            new InstrumentLinkInput.Happened(InstrumentEvent.ScaleAtRest(Tick, Eye.Right, new(micrometres)), Now, Tick)
        );

    internal string[] Happen(InstrumentEvent happened) => Give(new InstrumentLinkInput.Happened(happened, Now, Tick));

    internal string[] Ack(long sequence, HostId? host = null, BootNumber? boot = null) =>
        Hear(HostLine.Ack(host ?? Known.Host, boot ?? Known.Boot, sequence));

    internal string[] Resend(long sequence) => Hear(HostLine.Resend(Known.Host, Known.Boot, sequence));

    /// <summary>Lets time pass and gives what was said, heartbeats left out.</summary>
    internal string[] Wait(double seconds)
    {
        var said = new List<string>();
        var until = Now + TimeSpan.FromSeconds(seconds);
        for (var acts = 0; State.NextDue is { } due && due <= until; acts++)
        {
            Assert.True(acts < 10_000, "The link never comes to rest.");
            Now = due > Now ? due : Now;
            said.AddRange(Give(new InstrumentLinkInput.TimePassed(Now, Tick)));
        }

        Now = until;
        said.AddRange(Give(new InstrumentLinkInput.TimePassed(Now, Tick)));
        return [.. said.Where(line => !line.StartsWith("BEAT", StringComparison.Ordinal))];
    }

    /// <summary>The bodies of the lines, each checked to be well formed; boot and checks are left out.</summary>
    private static string[] Said(ImmutableArray<InstrumentLinkOutput> outputs)
    {
        var said = new List<string>();
        foreach (var send in outputs.OfType<InstrumentLinkOutput.Send>())
        {
            Assert.True(InstrumentLineDecoder.TryDecode(send.Bytes.Span[..^1], out _, out var fault), fault.Describe());
            said.Add(
                Encoding.ASCII.GetString(send.Bytes.Span[..^10]).Replace($",{Known.Boot}", "", StringComparison.Ordinal)
            );
        }

        return [.. said];
    }
}
