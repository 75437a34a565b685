using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Scenarios.Service;

/// <summary>
/// An instrument behind a kernel pseudo-terminal whose scales misread by a known amount, with a technician who measures the discs that
/// they are given.
/// </summary>
public sealed class BenchLane : TerminalLane
{
    /// <summary>The standard deviation with which the technician sets one edge, in mm.</summary>
    public const double ScatterMillimetres = 0.01;

    private const double Haste = 4;
    private readonly SimulatedBench technician;

    /// <summary>Opens the pseudo-terminal and switches the instrument on.</summary>
    /// <param name="link">The symbolic link that plays the port's stable name.</param>
    /// <param name="model">How the instrument is built.</param>
    /// <param name="serial">Its serial number.</param>
    /// <param name="seed">Chooses its boot numbers and the technician's scatter.</param>
    /// <param name="errors">How its scales misread.</param>
    public BenchLane(string link, InstrumentModel model, string serial, long seed, PerEye<ScaleError> errors)
        : base(
            link,
            new SimulatedInstrument(
                model,
                new SerialNumber(serial),
                seed,
                new InstrumentOptions { ScaleErrors = errors }
            ),
            static (instrument, side) => new ServedInstrument(instrument, side, TimeProvider.System)
        ) => technician = Served.With(instrument => new SimulatedBench(instrument, ScatterMillimetres, seed, Haste));

    /// <summary>Measures one disc, until the scale is home again.</summary>
    /// <param name="eye">By which scale.</param>
    /// <param name="millimetres">Its diameter, in mm.</param>
    /// <param name="cancel">Gives up waiting.</param>
    public Task MeasureAsync(Eye eye, double millimetres, CancellationToken cancel) =>
        Served.MeasureDiscAsync(technician, eye, millimetres, cancel);
}
