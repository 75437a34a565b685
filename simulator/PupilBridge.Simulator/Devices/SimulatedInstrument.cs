using System.Buffers;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Simulator.Oracle;

namespace PupilBridge.Simulator.Devices;

/// <summary>Whether an instrument is on.</summary>
public enum PowerState
{
    /// <summary>Off: it says and hears nothing.</summary>
    Off = 0,

    /// <summary>On.</summary>
    On = 1,

    /// <summary>Its last event is told; it goes off when that is acknowledged, or after two seconds.</summary>
    GoingOff = 2,
}

/// <summary>
/// One stand-in instrument: body, link and oracle. It has two times: that of the body, in which hands act and ticks count
/// (<see cref="Advance"/>), and that of the line, in which links wait and repeat (<see cref="Receive"/>,
/// <see cref="Collect"/>); in life they are the same, in a demo the body may run faster. Not thread-safe.
/// </summary>
public sealed partial class SimulatedInstrument
{
    private static readonly TimeSpan OffPatience = LinkTiming.Retransmission;

    private readonly InstrumentBody body;
    private readonly ArrayBufferWriter<byte> outgoing = new();
    private readonly HostLines hostLines = new();
    private readonly Chance boots;
    private InstrumentLinkState link;
    private TimeSpan lineNow;
    private TimeSpan offSince;
    private TimeSpan onFor;

    /// <summary>Makes an instrument that is off.</summary>
    /// <param name="model">How it is built.</param>
    /// <param name="serial">Its own serial number.</param>
    /// <param name="seed">Seed of its boot numbers and of its lamp meters' scatter.</param>
    /// <param name="options">How it differs from its model; null for in nothing.</param>
    public SimulatedInstrument(InstrumentModel model, SerialNumber serial, long seed, InstrumentOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        Model = model;
        Serial = serial;
        Options = options ?? new InstrumentOptions();
        boots = new Chance(seed, "boots of " + serial);
        var meter = new LampMeter(Options.LampMillilux, new Chance(seed, "lamp meters of " + serial));
        body = new InstrumentBody(model, Options.ScaleErrors, meter, new Listener(this));
        link = InstrumentLinkState.New(Setup());
    }

    /// <summary>How it is built.</summary>
    public InstrumentModel Model { get; }

    /// <summary>Its own serial number.</summary>
    public SerialNumber Serial { get; }

    /// <summary>How it differs from its model.</summary>
    public InstrumentOptions Options { get; }

    /// <summary>Everything that it ever produced, and what it lost.</summary>
    public TruthList Truth { get; } = new();

    /// <summary>Whether it is on.</summary>
    public PowerState Power { get; private set; }

    /// <summary>The link as it stands.</summary>
    public InstrumentLinkState Link => link;

    /// <summary>Whether a host has acknowledged everything that happened so far.</summary>
    public bool IsAllAcknowledged => link.KeptCount == 0;

    /// <summary>Lets the body's time pass: dial, lamps, scales, ticks.</summary>
    /// <param name="time">How much, 0 or more; less than a millisecond is owed to the next call.</param>
    public void Advance(TimeSpan time)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(time, TimeSpan.Zero);
        if (Power != PowerState.On)
        {
            // Hands and lamps are done; the clock runs until the current is cut, and heartbeats tell it.
            body.Clock.Advance(Power == PowerState.GoingOff ? time : TimeSpan.Zero);
            return;
        }

        body.Advance(time);
        var before = Battery;
        onFor += time;
        if (Battery != before)
        {
            TellBattery();
        }
    }

    /// <summary>Takes bytes from the host.</summary>
    /// <param name="bytes">The bytes, cut anywhere.</param>
    /// <param name="now">The line's time, never less than before.</param>
    public void Receive(ReadOnlySpan<byte> bytes, TimeSpan now)
    {
        lineNow = now > lineNow ? now : lineNow;
        if (Power == PowerState.Off)
        {
            hostLines.Forget();
            return;
        }

        hostLines.Take(bytes, line => Step(new InstrumentLinkInput.HostLineArrived(line, lineNow, Tick)));
    }

    /// <summary>Does what is due on the line and gives what it sends.</summary>
    /// <param name="now">The line's time, never less than before.</param>
    /// <returns>The bytes; none if it says nothing.</returns>
    public byte[] Collect(TimeSpan now)
    {
        lineNow = now > lineNow ? now : lineNow;
        if (Power != PowerState.Off)
        {
            Step(new InstrumentLinkInput.TimePassed(lineNow, Tick));
        }

        if (Power == PowerState.GoingOff && (link.KeptCount == 0 || lineNow - offSince >= OffPatience))
        {
            EndBoot("switched off");
        }

        var bytes = outgoing.WrittenSpan.ToArray();
        outgoing.ResetWrittenCount();
        return bytes;
    }

    /// <summary>The cable went out, as the instrument sees it.</summary>
    public void LineLost()
    {
        hostLines.Forget();
        Step(new InstrumentLinkInput.LinkLost(lineNow, Tick));
    }

    /// <summary>The cable is back.</summary>
    public void LineBack() => Step(new InstrumentLinkInput.LinkBack(lineNow, Tick));

    private Tick Tick => body.Clock.Now;

    // A charge of 86 % that falls by one in twenty minutes; our choice.
    private byte Battery => (byte)Math.Max(5, 86 - (onFor.TotalMinutes / 20));

    private void TellBattery()
    {
        if (Model.Can(InstrumentAbilities.Battery))
        {
            Step(new InstrumentLinkInput.BatteryIs(Battery, lineNow, Tick));
        }
    }

    private void Step(InstrumentLinkInput input)
    {
        (link, var outputs) = InstrumentLink.Step(link, input);
        foreach (var output in outputs)
        {
            switch (output)
            {
                case InstrumentLinkOutput.Send send:
                    outgoing.Write(send.Bytes.Span);
                    break;
                case InstrumentLinkOutput.Execute execute:
                    Execute(execute);
                    break;
                default:
                    break;
            }
        }
    }

    private void Happened(in InstrumentEvent happened, string text)
    {
        if (Power != PowerState.On)
        {
            return;
        }

        Truth.Happened(Serial, happened, text);
        Step(new InstrumentLinkInput.Happened(happened, lineNow, Tick));
        NoteOverflow();
    }

    // More numbers than places in memory: the oldest of them are one gap.
    private void NoteOverflow()
    {
        if (link.Last - link.OldestKept + 1 > link.KeptCount)
        {
            Truth.Overflowed(link.Boot, link.OldestKept, link.Last - link.KeptCount + 1);
        }
    }

    private void EndBoot(string cause)
    {
        if (link.KeptCount > 0)
        {
            Truth.Lost(link.Boot, link.OldestKept, link.Last, cause);
        }

        Step(new InstrumentLinkInput.PowerCut(lineNow, Tick));
        hostLines.Forget();
        Power = PowerState.Off;
    }

    private InstrumentLinkSetup Setup() =>
        new()
        {
            Identity = new InstrumentIdentity
            {
                Version = Options.HighestVersion,
                Serial = Options.ClaimedSerial ?? Serial,
                Model = Model.Name,
                Firmware = Model.Firmware,
                Boot = default,
                Abilities = Model.Abilities,
                Stops = Model.Stops,
                Scales = Model.Scales,
            },
            KeptCapacity = Options.KeptCapacity,
            BytesPerSecond = Options.BytesPerSecond,
            LowestVersion = Options.LowestVersion,
            HighestVersion = Options.HighestVersion,
        };

    private sealed class Listener(SimulatedInstrument instrument) : IBodyListener
    {
        public void Happened(in InstrumentEvent happened) => instrument.Happened(happened, TruthText.Of(happened));

        public void Moved(LivePosition position) =>
            instrument.Step(
                new InstrumentLinkInput.Moved(position.Eye, position.Position, instrument.lineNow, position.Tick)
            );
    }
}
