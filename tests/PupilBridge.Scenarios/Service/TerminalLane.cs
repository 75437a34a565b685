using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Scenarios.Service;

/// <summary>An instrument behind a kernel pseudo-terminal, living in this process.</summary>
public abstract class TerminalLane : IAsyncDisposable
{
    private readonly PseudoTerminal terminal;
    private readonly CancellationTokenSource stop = new();
    private readonly Task life;

    /// <summary>Opens the pseudo-terminal and switches the instrument on.</summary>
    /// <param name="link">The symbolic link that plays the port's stable name.</param>
    /// <param name="instrument">The instrument.</param>
    /// <param name="serve">Puts it at its side of the line.</param>
    protected TerminalLane(
        string link,
        SimulatedInstrument instrument,
        Func<SimulatedInstrument, IInstrumentSide, ServedInstrument> serve
    )
    {
        Link = link;
        terminal = new PseudoTerminal(link);
        instrument.SwitchOn();
        Served = serve(instrument, terminal);
        life = Served.RunAsync(stop.Token);
    }

    /// <summary>The port's stable name.</summary>
    public string Link { get; }

    /// <summary>The instrument's serial number.</summary>
    public SerialNumber Serial => Served.Instrument.Serial;

    /// <summary>The instrument.</summary>
    public ServedInstrument Served { get; }

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
        GC.SuppressFinalize(this);
        await stop.CancelAsync().ConfigureAwait(false);
        await life.ConfigureAwait(false);
        await Served.DisposeAsync().ConfigureAwait(false);
        await terminal.DisposeAsync().ConfigureAwait(false);
        stop.Dispose();
    }
}
