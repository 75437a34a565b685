using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Tests.Wire;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>
/// Plays the stage directions of the page's exchange to both links, joined by a line that takes no time, and writes down what
/// they say and do.
/// </summary>
internal sealed class ExchangeReplay
{
    private static readonly HostId Host = new(0x00C0FFEE);

    private readonly StringBuilder told = new();
    private readonly Queue<(bool FromInstrument, byte[] Line)> underWay = [];
    private InstrumentLinkState instrument;
    private HostLinkState host = HostLinkState.New(Host);
    private TimeSpan now;
    private bool loseInstrument;
    private bool loseHost;

    internal ExchangeReplay(InstrumentIdentity identity) =>
        instrument = InstrumentLinkState.New(new InstrumentLinkSetup { Identity = identity, BytesPerSecond = null });

    private Tick Tick => new((long)now.TotalMilliseconds);

    internal string Play(IEnumerable<(TimeSpan At, string What)> directions)
    {
        foreach (var (at, what) in directions)
        {
            WaitUntil(at);
            Tell("--", what);
            Direct(what);
        }

        return told.ToString().TrimEnd('\n');
    }

    private void WaitUntil(TimeSpan at)
    {
        while (Min(instrument.NextDue, host.NextDue) is { } due && due <= at)
        {
            now = due > now ? due : now;
            Give(new InstrumentLinkInput.TimePassed(now, Tick));
            Give(new HostLinkInput.TimePassed(now));
        }

        now = at;

        static TimeSpan? Min(TimeSpan? one, TimeSpan? other) => one is null || other < one ? other : one;
    }

    private void Direct(string what)
    {
        if (Follows(what, "instrument: switched on, boot ", out var boot))
            Give(new InstrumentLinkInput.SwitchedOn(new(ulong.Parse(boot, NumberStyles.HexNumber)), now, Tick));
        else if (what == "instrument: the current is cut")
            Give(new InstrumentLinkInput.PowerCut(now, Tick));
        else if (Follows(what, "instrument: scale R at ", out var position))
            Give(new InstrumentLinkInput.Moved(Eye.Right, new(Int(position)), now, Tick));
        else if (Follows(what, "instrument: command ", out var decided))
            Give(new InstrumentLinkInput.CarriedOut(Host, (uint)Int(decided[..^6]), CommandAnswer.Ok, "", now, Tick));
        else if (Follows(what, "instrument: ", out var kind))
            Give(new InstrumentLinkInput.Happened(Event(kind), now, Tick));
        else if (what == "line: loses the next line of the instrument")
            loseInstrument = true;
        else if (what == "line: loses the next line of the host")
            loseHost = true;
        else if (what == "host: the port is open")
            Give(new HostLinkInput.Opened(now));
        else if (what == "host: closes the port")
            Give(new HostLinkInput.Closed(now, "The line is dead."));
        else if (Follows(what, "host: has ", out var has))
            Give(new HostLinkInput.PositionKnown(instrument.Boot, Int(has.Split(' ')[0]), false, NoPrints, [], now));
        else if (Follows(what, "host: on disk up to ", out var durable))
            Give(new HostLinkInput.MadeDurable(instrument.Boot, Int(durable), now));
        else if (Follows(what, "host: wishes command ", out var wish))
            Give(Wish(wish.Split(", ", 2)));
        else
            Assert.Fail($"Nobody knows how to play '{what}'.");
    }

    private static ImmutableDictionary<long, uint> NoPrints => ImmutableDictionary<long, uint>.Empty;

    private static bool Follows(string what, string start, out string rest)
    {
        var follows = what.StartsWith(start, StringComparison.Ordinal);
        rest = follows ? what[start.Length..] : "";
        return follows;
    }

    private static int Int(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);

    private InstrumentEvent Event(string kind) =>
        Lines.Decoded($"EV,{instrument.Boot},{instrument.Last + 1},{Tick.Milliseconds},{kind}").Event;

    private HostLinkInput.Wish Wish(string[] parts)
    {
        var line = Lines.Sealed($"CMD,{Host},{parts[0]},{parts[1]}");
        Assert.True(HostLineDecoder.TryDecode(line, out var command, out _));
        return new HostLinkInput.Wish(command.CommandNumber, command.Command, now);
    }

    private void Give(InstrumentLinkInput input)
    {
        var step = InstrumentLink.Step(instrument, input);
        instrument = step.State;
        foreach (var send in step.Outputs.OfType<InstrumentLinkOutput.Send>())
            underWay.Enqueue((true, send.Bytes.ToArray()));
        Deliver();
    }

    private void Give(HostLinkInput input)
    {
        var step = HostLink.Step(host, input);
        host = step.State;
        foreach (var output in step.Outputs)
        {
            if (output is HostLinkOutput.Send send)
                underWay.Enqueue((false, Lines.Of(send.Line)));
            else if (Said(output) is { } said)
                Tell("=>", said);
        }

        Deliver();
    }

    private void Deliver()
    {
        while (underWay.TryDequeue(out var next))
        {
            var line = next.Line[..^1];
            var lost = next.FromInstrument ? loseInstrument : loseHost;
            Tell((next.FromInstrument ? "I" : "H") + (lost ? "~" : ">"), Encoding.ASCII.GetString(line));
            if (next.FromInstrument)
                loseInstrument = false;
            else
                loseHost = false;
            if (lost)
                continue;
            if (next.FromInstrument && InstrumentLineDecoder.TryDecode(line, out var said, out _))
                Give(new HostLinkInput.LineArrived(said, line, now));
            else if (HostLineDecoder.TryDecode(line, out var asked, out _))
                Give(new InstrumentLinkInput.HostLineArrived(asked, now, Tick));
        }
    }

    private static string? Said(HostLinkOutput output) =>
        output switch
        {
            HostLinkOutput.Met => "the identity is whole",
            HostLinkOutput.AskPosition => "how far do my records have this boot?",
            HostLinkOutput.Connected => "connected",
            HostLinkOutput.Accept accept => $"event {accept.Event.Sequence} is taken, to be written",
            HostLinkOutput.CommandEnded ended => $"command {ended.Number}: {ended.Outcome}",
            HostLinkOutput.Stalled => "3 s without a line: the line is dead",
            HostLinkOutput.BeatSeen or HostLinkOutput.PositionSeen => null,
            _ => output.ToString(),
        };

    private void Tell(string mark, string what) =>
        told.Append(CultureInfo.InvariantCulture, $"{now.TotalSeconds:0.000} {mark} {what}\n");
}
