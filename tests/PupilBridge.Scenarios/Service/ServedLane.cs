using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Scenarios.Service;

/// <summary>An instrument behind a kernel pseudo-terminal, with an examiner before it, living in this process.</summary>
public sealed class ServedLane : IAsyncDisposable
{
    private readonly PseudoTerminal terminal;
    private readonly CancellationTokenSource stop = new();
    private readonly Task life;
    private readonly long seed;

    /// <summary>Opens the pseudo-terminal and switches the instrument on.</summary>
    /// <param name="link">The symbolic link that plays the port's stable name.</param>
    /// <param name="seed">Chooses model, person, examiner and chance.</param>
    /// <param name="faults">What goes wrong.</param>
    /// <param name="pace">How many times faster than life.</param>
    public ServedLane(string link, long seed, FaultSet faults, double pace)
    {
        this.seed = seed;
        terminal = new PseudoTerminal(link);
        var model = seed % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB;
        var instrument = new SimulatedInstrument(model, Serial, seed, faults.Spoil(new InstrumentOptions()));
        instrument.SwitchOn();
        Served = new ServedInstrument(instrument, terminal, TimeProvider.System, faults, pace);
        life = Served.RunAsync(stop.Token);
    }

    /// <summary>The instrument's serial number.</summary>
    public static SerialNumber Serial { get; } = new("QA-0502");

    /// <summary>The instrument.</summary>
    public ServedInstrument Served { get; }

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

    /// <summary>Waits until the bridge has acknowledged all, faults being over.</summary>
    /// <param name="limit">How long at most.</param>
    /// <returns>Whether it has.</returns>
    public async Task<bool> CameToRestAsync(TimeSpan limit)
    {
        using var patience = new CancellationTokenSource(limit);
        try
        {
            while (true)
            {
                var done = Served.With(i => i.Power == PowerState.On && i.IsAllAcknowledged && i.Link.Acknowledged > 0);
                if (done)
                    return true;
                await Task.Delay(50, patience.Token).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    /// <summary>Holds the journal of a stopped service against what happened.</summary>
    /// <param name="dataFolder">The service's data folder.</param>
    /// <param name="settled">Whether the instrument had time to send all again.</param>
    public AuditResult Audit(string dataFolder, bool settled) =>
        JournalAudit.Compare(
            Served.Instrument.Truth,
            Serial,
            [.. JournalText.ReadAll(dataFolder).Select(e => e.Entry)],
            settled
        );

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync().ConfigureAwait(false);
        await life.ConfigureAwait(false);
        await Served.DisposeAsync().ConfigureAwait(false);
        await terminal.DisposeAsync().ConfigureAwait(false);
        stop.Dispose();
    }

    /// <summary>The examiner's words matter elsewhere: here only what the instrument says is held against the journal.</summary>
    private sealed class Silent : IExaminerVoice
    {
        public ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel) => ValueTask.CompletedTask;
    }
}
