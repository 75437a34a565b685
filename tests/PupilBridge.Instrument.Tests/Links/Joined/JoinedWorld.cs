using System.Text;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Links.Joined;

/// <summary>
/// Both sides of a link in virtual time, with everything going wrong for a while and then nothing: what an instrument said,
/// against what the journal holds.
/// </summary>
internal sealed class JoinedWorld
{
    private static readonly TimeSpan Pulse = TimeSpan.FromMilliseconds(10);

    private readonly Random random;
    private readonly FaultyWire toHost;
    private readonly FaultyWire toInstrument;
    private InstrumentLinkState instrument;
    private byte[] unread = [];
    private TimeSpan now;
    private TimeSpan? reopenAt;
    private ulong boots;

    internal JoinedWorld(int seed, int capacity)
    {
        random = new Random(seed);
        toHost = new FaultyWire(random);
        toInstrument = new FaultyWire(random);
        Host = new HostDouble(toInstrument, random);
        instrument = InstrumentLinkState.New(
            new InstrumentLinkSetup
            {
                Identity = Known.Identity,
                KeptCapacity = capacity,
                BytesPerSecond = 11_520,
            }
        );
        SwitchOn();
        Host.Open(now);
    }

    internal HostDouble Host { get; }

    /// <summary>Each boot's event lines, in order, as they first stood in the instrument's memory.</summary>
    internal Dictionary<BootNumber, List<byte[]>> Truth { get; } = [];

    /// <summary>Which numbers each boot's memory had to drop.</summary>
    internal Dictionary<BootNumber, HashSet<long>> Dropped { get; } = [];

    /// <summary>Up to where each boot was acknowledged by a rival host.</summary>
    internal Dictionary<BootNumber, long> TakenByRival { get; } = [];

    /// <summary>Every change of phase of the host's side that was seen.</summary>
    internal HashSet<(HostLinkPhase From, HostLinkPhase To)> HostWays => Host.Ways;

    /// <summary>Every change of phase of the instrument's side that was seen.</summary>
    internal HashSet<(InstrumentLinkPhase From, InstrumentLinkPhase To)> InstrumentWays { get; } = [];

    internal InstrumentLinkState Instrument => instrument;

    internal TimeSpan LastEventLineAt { get; private set; }

    internal TimeSpan Now => now;

    internal void Run(double seconds, double faultRate, double eventsPerSecond, bool mishaps)
    {
        (toHost.FaultRate, toInstrument.FaultRate) = (faultRate, faultRate);
        for (var until = now + TimeSpan.FromSeconds(seconds); now < until; now += Pulse)
        {
            if (Chance(eventsPerSecond))
                Happen(InstrumentEvent.ScaleAtRest(Tick, Eye.Left, new(random.Next(10_000))));
            if (mishaps)
                Mishap();
            if (Host.MustReopen && reopenAt is null)
                Unplug(0.3);
            if (reopenAt <= now)
                Replug();
            Exchange();
        }
    }

    private Tick Tick => new((long)(now.TotalMilliseconds * 1.0001));

    private void Mishap()
    {
        if (reopenAt is null && Chance(0.1))
            Unplug(random.NextDouble() * 5);
        if (Chance(0.03))
            SwitchOn();
        if (Chance(0.02))
            Happen(InstrumentEvent.SwitchedOff(Tick));
        if (Chance(0.05))
            Host.FailWriting(now);
        if (Chance(0.05))
            CrashHost();
        if (Chance(0.02))
            RivalTakesOver();
    }

    private bool Chance(double perSecond) => random.NextDouble() < perSecond * Pulse.TotalSeconds;

    private void Exchange()
    {
        var read = toHost.Read(now);
        if (reopenAt is null)
            Host.Turn(read, now);
        unread = [.. unread, .. toInstrument.Read(now)];
        while (LineFramer.Next(unread, false) is { Kind: not FrameKind.NeedMore } frame)
        {
            if (
                frame.Kind == FrameKind.Line
                && HostLineDecoder.TryDecode(unread.AsSpan(0, frame.Length), out var line, out _)
            )
                Give(new InstrumentLinkInput.HostLineArrived(line, now, Tick));
            unread = unread[frame.Consumed..];
        }

        Give(new InstrumentLinkInput.TimePassed(now, Tick));
    }

    private void SwitchOn()
    {
        var boot = new BootNumber(++boots * 0x9E3779B97F4A7C15);
        (Truth[boot], Dropped[boot]) = ([], []);
        Give(new InstrumentLinkInput.SwitchedOn(boot, now, Tick));
        Happen(InstrumentEvent.ModeChanged(Tick, InstrumentMode.Idle, Block.None, ModeCause.Dial));
    }

    private void Happen(InstrumentEvent happened)
    {
        var before = instrument.Last;
        var told = happened with { Boot = instrument.Boot, Sequence = before + 1 };
        Give(new InstrumentLinkInput.Happened(happened, now, Tick));
        if (instrument.Last > before)
            Truth[instrument.Boot].Add(Tests.Wire.Lines.Of(new InstrumentLine(told))[..^1]);
    }

    private void Give(InstrumentLinkInput input)
    {
        var step = InstrumentLink.Step(instrument, input);
        if (instrument.Phase != step.State.Phase)
            InstrumentWays.Add((instrument.Phase, step.State.Phase));
        instrument = step.State;
        foreach (var send in step.Outputs.OfType<InstrumentLinkOutput.Send>())
        {
            toHost.Send(send.Bytes.Span, now);
            if (send.Bytes.Span.StartsWith("EV,"u8))
                LastEventLineAt = now;
        }

        // All numbers beyond what fits are told by the gap at the front.
        var afterGap = instrument.Last - instrument.KeptCount + 2;
        if (instrument.Last - instrument.OldestKept + 1 > instrument.KeptCount)
            Dropped[instrument.Boot].UnionWith(Range(instrument.OldestKept, afterGap - 1));
    }

    private void Unplug(double seconds)
    {
        toHost.Unplug();
        toInstrument.Unplug();
        Host.Close(now);
        // A plain serial line does not tell the instrument that nobody is there.
        if (random.NextDouble() < 0.5)
            Give(new InstrumentLinkInput.LinkLost(now, Tick));
        reopenAt = now + TimeSpan.FromSeconds(seconds);
    }

    private void Replug()
    {
        reopenAt = null;
        toHost.ReleaseStale(now);
        toInstrument.ReleaseStale(now);
        Give(new InstrumentLinkInput.LinkBack(now, Tick));
        Host.Open(now);
    }

    private void CrashHost()
    {
        Host.Crash();
        if (reopenAt is null)
            Host.Open(now);
    }

    private void RivalTakesOver()
    {
        Give(new InstrumentLinkInput.HostLineArrived(HostLine.Take(Known.OtherHost, 1, 1), now, Tick));
        var upTo = random.NextInt64(0, instrument.Last + 1);
        Give(new InstrumentLinkInput.HostLineArrived(HostLine.Ack(Known.OtherHost, instrument.Boot, upTo), now, Tick));
        TakenByRival[instrument.Boot] = Math.Max(TakenByRival.GetValueOrDefault(instrument.Boot), upTo);
    }

    private static IEnumerable<long> Range(long first, long last)
    {
        for (var number = first; number <= last; number++)
            yield return number;
    }

    public override string ToString() =>
        string.Join(
            '\n',
            Host.Journal.Select(e => $"{e.Boot} {e.First}-{e.Last} {e.Cause} {Encoding.ASCII.GetString(e.Raw ?? [])}")
        );
}
