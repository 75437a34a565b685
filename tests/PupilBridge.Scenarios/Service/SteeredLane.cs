using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Scenarios.Service;

/// <summary>
/// An instrument of a chosen model behind a kernel pseudo-terminal, with an examiner whose words the caller takes down. Eyes, hands
/// and ticks go as fast as in life, and go on while the examiner waits to be heard; so the service finds the instrument's times as
/// certain as in a clinic.
/// </summary>
public sealed class SteeredLane : TerminalLane
{
    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(10);

    /// <summary>Opens the pseudo-terminal and switches the instrument on.</summary>
    /// <param name="link">The symbolic link that plays the port's stable name.</param>
    /// <param name="model">How the instrument is built.</param>
    /// <param name="serial">Its serial number.</param>
    /// <param name="seed">Chooses its boot numbers.</param>
    /// <param name="onWrite">Told of each piece of text just before it goes onto the line; null for nobody.</param>
    public SteeredLane(
        string link,
        InstrumentModel model,
        string serial,
        long seed,
        Action<ReadOnlyMemory<byte>>? onWrite = null
    )
        : base(
            link,
            new SimulatedInstrument(model, new SerialNumber(serial), seed),
            (instrument, side) =>
                new ServedInstrument(
                    instrument,
                    onWrite is null ? side : new TappedSide(side, onWrite),
                    TimeProvider.System
                )
        ) { }

    /// <summary>Begins to examine one person.</summary>
    /// <param name="scenario">Who is examined by whom.</param>
    /// <returns>The exam, for <see cref="ExamineAsync"/> and for what is true of it afterwards.</returns>
    public SimulatedExam Seat(Scenario scenario) =>
        Served.With(instrument => new SimulatedExam(scenario, instrument) { GoesOnWhileSpeaking = true });

    /// <summary>Lets an exam go on to its end.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="voice">Takes down what the examiner says.</param>
    /// <param name="cancel">Ends it early.</param>
    public Task ExamineAsync(SimulatedExam exam, IExaminerVoice voice, CancellationToken cancel) =>
        Served.ExamineAsync(exam, voice, allRecorded: null, cancel);

    /// <summary>Waits until something is so at the instrument.</summary>
    /// <param name="isSo">What; it is looked at every 10 ms.</param>
    /// <param name="cancel">Gives up.</param>
    public async Task UntilAsync(Func<SimulatedInstrument, bool> isSo, CancellationToken cancel)
    {
        while (!Served.With(isSo))
            await Task.Delay(Glance, cancel).ConfigureAwait(false);
    }
}
