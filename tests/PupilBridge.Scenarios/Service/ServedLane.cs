using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Scenarios.Service;

/// <summary>An instrument behind a kernel pseudo-terminal, with an examiner before it, living in this process.</summary>
public sealed class ServedLane : TerminalLane
{
    private readonly long seed;

    /// <summary>Opens the pseudo-terminal and switches the instrument on.</summary>
    /// <param name="link">The symbolic link that plays the port's stable name.</param>
    /// <param name="seed">Chooses model, person, examiner and chance.</param>
    /// <param name="faults">What goes wrong.</param>
    /// <param name="pace">How many times faster than life.</param>
    public ServedLane(string link, long seed, FaultSet faults, double pace)
        : base(
            link,
            new SimulatedInstrument(
                seed % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB,
                new SerialNumber("QA-0502"),
                seed,
                faults.Spoil(new InstrumentOptions())
            ),
            (instrument, side) => new ServedInstrument(instrument, side, TimeProvider.System, faults, pace)
        ) => this.seed = seed;

    /// <summary>Examines one person after the other until told to stop.</summary>
    /// <param name="cancel">Ends it.</param>
    /// <returns>How many exams were begun.</returns>
    public async Task<int> ExamineOnAndOnAsync(CancellationToken cancel)
    {
        var exams = 0;
        try
        {
            for (; ; exams++)
                await ExamineAsync(seed + exams, cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            return exams + 1;
        }
    }

    /// <summary>Examines one person to the end.</summary>
    /// <param name="person">The person's seed.</param>
    /// <param name="cancel">Ends it.</param>
    public Task ExamineAsync(long person, CancellationToken cancel)
    {
        var exam = Served.With(instrument => new SimulatedExam(NamedScenarios.FromSeed(person), instrument));
        return Served.ExamineAsync(exam, new Silent(), _ => ValueTask.CompletedTask, cancel);
    }

    /// <summary>
    /// Waits until the bridge has acknowledged all, faults being over, and cuts the instrument's current in that moment: a scale that is
    /// still on its way tells nothing any more that no service would be there to record.
    /// </summary>
    /// <param name="limit">How long at most.</param>
    /// <returns>Whether it has.</returns>
    public async Task<bool> CameToRestAsync(TimeSpan limit)
    {
        using var patience = new CancellationTokenSource(limit);
        try
        {
            while (true)
            {
                if (Served.With(EndAtRest))
                    return true;
                await Task.Delay(50, patience.Token).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static bool EndAtRest(SimulatedInstrument instrument)
    {
        if (instrument.Power != PowerState.On || !instrument.IsAllAcknowledged || instrument.Link.Acknowledged == 0)
            return false;
        instrument.CutPower();
        return true;
    }

    /// <summary>The examiner's words matter elsewhere: here only what the instrument says is held against the journal.</summary>
    private sealed class Silent : IExaminerVoice
    {
        public ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel) => ValueTask.CompletedTask;
    }
}
