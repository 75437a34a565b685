using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

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
    private const double BrightLux = 400;
    private const double DimLux = 2;
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

    /// <summary>Switches the light of the room.</summary>
    /// <param name="isDim">Whether it is dim now; otherwise bright.</param>
    public void SetRoom(bool isDim) =>
        Served.With(instrument =>
        {
            instrument.SetRoom(isDim ? DimLux : BrightLux);
            return true;
        });

    /// <summary>Lets an examiner go through a whole exam on a person, whose words nobody takes down.</summary>
    /// <param name="scenario">Who is examined by whom.</param>
    /// <param name="cancel">Ends it early.</param>
    public Task ExamineAsync(Scenario scenario, CancellationToken cancel) =>
        Served.ExamineAsync(
            Served.With(instrument => new SimulatedExam(scenario, instrument) { GoesOnWhileSpeaking = true }),
            Unheard.Instance,
            allRecorded: null,
            cancel
        );

    private sealed class Unheard : IExaminerVoice
    {
        public static Unheard Instance { get; } = new();

        public ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel) => ValueTask.CompletedTask;
    }
}
