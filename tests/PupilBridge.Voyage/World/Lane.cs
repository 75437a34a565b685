using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Voyage.World;

/// <summary>One instrument at its line, with the hands that examine by it, stepped only when something is due.</summary>
internal sealed class Lane
{
    private static readonly TimeSpan Moving = TimeSpan.FromMilliseconds(40);
    private static readonly TimeSpan Storm = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan Longest = TimeSpan.FromHours(1);
    private readonly InMemoryInstrument line;
    private readonly FaultSet faults;
    private TimeSpan reached;
    private byte[] fromHost = [];
    private bool attention;

    public Lane(string port, InstrumentModel model, SerialNumber serial, long seed, FaultSet faults)
    {
        Port = port;
        this.faults = faults;
        Instrument = new SimulatedInstrument(model, serial, seed, faults.Spoil(new InstrumentOptions()));
        line = new InMemoryInstrument(Instrument, faults);
        Instrument.SwitchOn();
    }

    /// <summary>The port's name.</summary>
    public string Port { get; }

    public SimulatedInstrument Instrument { get; }

    public SerialNumber Serial => Instrument.Serial;

    /// <summary>The service's side of the line; null while no service runs.</summary>
    public PortSide? Side { get; set; }

    /// <summary>What goes wrong on the line and in the instrument.</summary>
    public FaultSet Faults => faults;

    /// <summary>The most events that the instrument ever kept.</summary>
    public int MostKept { get; private set; }

    /// <summary>When it must be stepped at the latest.</summary>
    public TimeSpan NextDue
    {
        get
        {
            var due = reached + Longest;
            if (attention)
                return reached;
            if (Instrument.Link.NextDue is { } link)
                due = Min(due, link);
            if (line.IsPlugged && Side?.NextDue is { } side)
                due = Min(due, side);
            var quiet = Instrument.QuietFor(Longest);
            due = Min(due, reached + (quiet > Moving ? quiet : Moving));
            return ReferenceEquals(faults, FaultSet.None) ? due : Min(due, reached + Storm);
        }
    }

    /// <summary>What is due when, for a person who looks for a standstill.</summary>
    public string WhatIsDue =>
        $"{Serial} at {reached}: attention {attention}, link {Instrument.Link.NextDue} ({Instrument.Link.Phase}), side {Side?.NextDue}, body {Instrument.QuietFor(Longest)}";

    /// <summary>Something happened from outside: it is stepped at once.</summary>
    public void Wake() => attention = true;

    /// <summary>Lets time pass for instrument and line, and exchanges what is to be exchanged.</summary>
    public void Step(TimeSpan now, SteppedService? service)
    {
        attention = false;
        Instrument.Advance(now - reached);
        reached = now;
        var pieces = line.ExchangePieces(fromHost, now);
        fromHost = [];
        MostKept = Math.Max(MostKept, Instrument.Link.KeptCount);
        if (Side is { } side && service is not null)
            side.Step(line.IsPlugged, pieces, service.Present);
    }

    /// <summary>Takes what the service wrote; it reaches the instrument with the next step.</summary>
    public void Collect()
    {
        if (Side?.TakeOutgoing() is not { Length: > 0 } bytes)
            return;
        fromHost = [.. fromHost, .. bytes];
        attention = true;
    }

    /// <summary>What the dead service had written and the line had not taken is gone.</summary>
    public void LoseHost()
    {
        Side = null;
        fromHost = [];
    }

    private static TimeSpan Min(TimeSpan one, TimeSpan other) => one < other ? one : other;
}
