using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.Lines;

/// <summary>A whole exam at the end of a line in memory: body and line share one time, which the caller gives.</summary>
public sealed class InMemoryExam
{
    private TimeSpan reached;

    /// <summary>Makes an instrument, switches it on, and seats a person and an examiner before it.</summary>
    /// <param name="model">The instrument's model.</param>
    /// <param name="serial">Its serial number.</param>
    /// <param name="scenario">Who is examined by whom.</param>
    /// <param name="faults">What goes wrong; null for nothing.</param>
    /// <param name="options">How the instrument differs from its model; null for in nothing.</param>
    public InMemoryExam(
        InstrumentModel model,
        SerialNumber serial,
        Scenario scenario,
        FaultSet? faults = null,
        InstrumentOptions? options = null
    )
    {
        ArgumentNullException.ThrowIfNull(scenario);
        Faults = faults ?? FaultSet.None;
        var instrument = new SimulatedInstrument(
            model,
            serial,
            scenario.Seed,
            Faults.Spoil(options ?? new InstrumentOptions())
        );
        Line = new InMemoryInstrument(instrument, Faults);
        instrument.SwitchOn();
        Exam = new SimulatedExam(scenario, instrument);
    }

    /// <summary>The exam. When <see cref="SimulatedExam.AboutToSay"/> has something, say it and call <see cref="SimulatedExam.Said"/>.</summary>
    public SimulatedExam Exam { get; }

    /// <summary>The line.</summary>
    public InMemoryInstrument Line { get; }

    /// <summary>The instrument.</summary>
    public SimulatedInstrument Instrument => Line.Instrument;

    /// <summary>What goes wrong.</summary>
    public FaultSet Faults { get; }

    /// <summary>Lets time pass to a moment and exchanges bytes.</summary>
    /// <param name="fromHost">What the host has sent since the last call.</param>
    /// <param name="now">The moment, never less than before; 20 ms later or so.</param>
    /// <returns>What the host reads, in the pieces in which it reads it.</returns>
    public IReadOnlyList<byte[]> ExchangePieces(ReadOnlySpan<byte> fromHost, TimeSpan now)
    {
        if (now > reached)
        {
            Exam.Step(now - reached);
            reached = now;
        }

        return Line.ExchangePieces(fromHost, now);
    }

    /// <summary>As <see cref="ExchangePieces"/>, in one piece.</summary>
    /// <param name="fromHost">What the host has sent since the last call.</param>
    /// <param name="now">The moment.</param>
    /// <returns>What the host reads.</returns>
    public byte[] Exchange(ReadOnlySpan<byte> fromHost, TimeSpan now) =>
        [.. ExchangePieces(fromHost, now).SelectMany(p => p)];
}
