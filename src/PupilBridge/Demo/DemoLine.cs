using System.Runtime.Versioning;
using System.Threading.Channels;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Demo;

/// <summary>
/// The simulated instrument at its end of a pseudo-terminal of the kernel. The instrument itself does nothing on its own:
/// whoever drives the demo exchanges bytes at the moments of the demo's clock.
/// </summary>
[SupportedOSPlatform("linux")]
internal sealed class DemoLine : IAsyncDisposable
{
    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(2);

    private readonly PseudoTerminal terminal;
    private readonly SimulatedInstrument instrument;
    private readonly LineMeter meter = new();
    private readonly Channel<byte[]> heard = Channel.CreateUnbounded<byte[]>(new() { SingleReader = true });
    private readonly Task listening;

    /// <summary>Plugs an instrument in.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="link">Where the link goes that plays the port's stable name.</param>
    /// <exception cref="PortOpenException">The system gave no pseudo-terminal.</exception>
    public DemoLine(SimulatedInstrument instrument, string link)
    {
        this.instrument = instrument;
        terminal = new PseudoTerminal(link);
        listening = ListenAsync();
    }

    /// <summary>The address that the service opens.</summary>
    public PortAddress Address => terminal.Address;

    /// <summary>What counts the bytes under way; the service's end must count too.</summary>
    public LineMeter Meter => meter;

    /// <summary>The device of the kernel behind it, for people.</summary>
    public string Device => terminal.DevicePath ?? "?";

    /// <summary>Gives the instrument what the service has sent, and sends what the instrument has to say.</summary>
    /// <param name="now">The line's time.</param>
    public async Task ExchangeAsync(TimeSpan now)
    {
        TakeHeard(now);
        var said = instrument.Collect(now);
        if (said.Length > 0)
        {
            meter.Said(said.Length);
            await terminal.WriteAsync(said, WriteLimit).ConfigureAwait(false);
        }
    }

    /// <summary>
    /// Waits, in the wall's time, until everything that happened is acknowledged and no byte is under way. The demo's time
    /// stands still meanwhile.
    /// </summary>
    /// <param name="now">The line's time.</param>
    /// <param name="patience">How long at most; after that, time must go on so that the line can mend itself.</param>
    public async Task SettledAsync(TimeSpan now, TimeSpan patience)
    {
        if (!meter.IsOpen || IsSettled)
        {
            return;
        }

        using var enough = new CancellationTokenSource(patience);
        while (!IsSettled)
        {
            try
            {
                await meter.MovedAsync(enough.Token).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                return;
            }

            await ExchangeAsync(now).ConfigureAwait(false);
        }
    }

    private bool IsSettled => instrument.IsAllAcknowledged && meter.IsQuiet;

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await terminal.DisposeAsync().ConfigureAwait(false);
        await listening.ConfigureAwait(false);
    }

    private void TakeHeard(TimeSpan now)
    {
        while (heard.Reader.TryRead(out var bytes))
        {
            instrument.Receive(bytes, now);
        }
    }

    private async Task ListenAsync()
    {
        var buffer = new byte[1024];
        try
        {
            while (await terminal.ReadAsync(buffer).ConfigureAwait(false) is > 0 and var count)
            {
                heard.Writer.TryWrite(buffer[..count]);
                meter.Heard(count);
            }
        }
        catch (PortLostException)
        {
            // The cable is out for good: the demo is over.
        }

        heard.Writer.TryComplete();
    }
}
