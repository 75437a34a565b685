using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Simulator.Lines;

/// <summary>
/// An instrument at the end of a line in memory, driven step by step: bytes and a time in, bytes out. No threads, no timers,
/// no ports.
/// </summary>
public sealed class InMemoryInstrument : IFaultStage
{
    private readonly FaultSet faults;

    /// <summary>Puts an instrument at the end of a line.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="faults">What goes wrong; null for nothing.</param>
    public InMemoryInstrument(SimulatedInstrument instrument, FaultSet? faults = null)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        Instrument = instrument;
        this.faults = faults ?? FaultSet.None;
    }

    /// <inheritdoc/>
    public SimulatedInstrument Instrument { get; }

    /// <summary>Whether the cable is in. While it is out, the host must take its port for lost.</summary>
    public bool IsPlugged { get; private set; } = true;

    /// <inheritdoc/>
    public void Unplug()
    {
        IsPlugged = false;
        Instrument.LineLost();
    }

    /// <inheritdoc/>
    public void Replug()
    {
        IsPlugged = true;
        Instrument.LineBack();
    }

    /// <summary>One exchange: the host's bytes go in, the instrument's come out. To be called every 20 ms or so.</summary>
    /// <param name="fromHost">What the host has sent since the last call; lost while the cable is out.</param>
    /// <param name="now">The line's time, never less than before.</param>
    /// <returns>What the host reads, in the pieces in which it reads it; none while the cable is out.</returns>
    public IReadOnlyList<byte[]> ExchangePieces(ReadOnlySpan<byte> fromHost, TimeSpan now)
    {
        faults.Act(this, now);
        var pieces = new List<byte[]>();

        // Bytes that are under way in a held line are lost with the cable, too: what comes out then is thrown away.
        faults.FromHost(
            IsPlugged ? fromHost : [],
            now,
            piece =>
            {
                if (IsPlugged)
                {
                    Instrument.Receive(piece, now);
                }
            }
        );
        var said = Instrument.Collect(now);
        faults.ToHost(
            IsPlugged ? said : [],
            now,
            piece =>
            {
                if (IsPlugged)
                {
                    pieces.Add(piece.ToArray());
                }
            }
        );
        return pieces;
    }

    /// <summary>One exchange, as <see cref="ExchangePieces"/>, in one piece.</summary>
    /// <param name="fromHost">What the host has sent since the last call.</param>
    /// <param name="now">The line's time, never less than before.</param>
    /// <returns>What the host reads.</returns>
    public byte[] Exchange(ReadOnlySpan<byte> fromHost, TimeSpan now) =>
        [.. ExchangePieces(fromHost, now).SelectMany(p => p)];
}
