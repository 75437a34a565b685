using Microsoft.Extensions.Logging;
using PupilBridge.Ports;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Options;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// Decides which ports are served: those that a person named, or all that are found, also those plugged in later. A port
/// goes by its stable name; which instrument is behind it, only the instrument's own serial number says.
/// </summary>
internal sealed partial class PortWatch
{
    private readonly LineSurroundings around;
    private readonly Func<PortAddress, IPortOpener> openers;
    private readonly Func<IReadOnlyList<string>> find;
    private readonly Lock gate = new();
    private readonly Dictionary<string, ServedPort> served = new(StringComparer.Ordinal);
    private readonly HashSet<string> leftOut = new(StringComparer.Ordinal);

    /// <summary>Makes a watch that serves nothing yet.</summary>
    /// <param name="around">What all lines share.</param>
    /// <param name="openers">Gives the opener of an address.</param>
    /// <param name="find">Lists the stable names of the serial ports that are present; it opens none.</param>
    public PortWatch(LineSurroundings around, Func<PortAddress, IPortOpener> openers, Func<IReadOnlyList<string>> find)
    {
        this.around = around;
        this.openers = openers;
        this.find = find;
        around.Claims.Released += WakeRefused;
    }

    private bool IsAutomatic => around.Options.Ports is [] or [BridgeSettings.Automatic];

    /// <summary>The ports that are served now, by name.</summary>
    public IReadOnlyList<PortSupervisor> Served
    {
        get
        {
            lock (gate)
                return [.. served.Values.Select(port => port.Supervisor)];
        }
    }

    /// <summary>Serves ports until stopped; ends when all of them are closed.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        if (!IsAutomatic)
        {
            foreach (var name in around.Options.Ports)
                Serve(name, stop);
        }

        using var timer = new PeriodicTimer(around.Options.LookForPortsEvery, around.Clock.Time);
        try
        {
            do
            {
                await LookAsync(stop).ConfigureAwait(false);
            } while (await timer.WaitForNextTickAsync(stop).ConfigureAwait(false));
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }

        await Task.WhenAll(StopAll()).ConfigureAwait(false);
    }

    private async Task LookAsync(CancellationToken stop)
    {
        try
        {
            if (IsAutomatic)
                await FollowAsync(find(), stop).ConfigureAwait(false);
            else
                WakeThoseThatAppeared();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            CannotLook(around.Logger, e.Message);
        }
    }

    private async Task FollowAsync(IReadOnlyList<string> present, CancellationToken stop)
    {
        foreach (var name in present)
            Serve(name, stop);
        leftOut.IntersectWith(present);
        foreach (var port in Gone(present))
        {
            await port.Stop.CancelAsync().ConfigureAwait(false);
            await port.Running.ConfigureAwait(false);
            port.Stop.Dispose();
            around.Board.Remove(port.Supervisor.Name);
        }
    }

    /// <summary>Takes out the ports that were found, are there no more, and are not open.</summary>
    private List<ServedPort> Gone(IReadOnlyList<string> present)
    {
        lock (gate)
        {
            var gone = served.Where(port => !present.Contains(port.Key) && port.Value.Supervisor.Line is null).ToList();
            foreach (var port in gone)
                served.Remove(port.Key);
            return [.. gone.Select(port => port.Value)];
        }
    }

    private void Serve(string name, CancellationToken stop)
    {
        lock (gate)
        {
            if (served.ContainsKey(name))
                return;
            if (served.Count >= around.Options.MaxPorts)
            {
                if (leftOut.Add(name))
                    LeavesOut(around.Logger, name, around.Options.MaxPorts);
                return;
            }

            if (OpenerOf(name) is not { } opener)
                return;
            var supervisor = new PortSupervisor(opener, around, ChanceOf(name));
            var own = CancellationTokenSource.CreateLinkedTokenSource(stop);
            served[name] = new ServedPort(
                supervisor,
                own,
                Task.Run(() => supervisor.RunAsync(own.Token), CancellationToken.None)
            );
        }
    }

    /// <summary>The opener of a port; a port for which this system has none says so and is left out.</summary>
    private IPortOpener? OpenerOf(string name)
    {
        if (leftOut.Contains(name))
            return null;
        try
        {
            return openers(PortAddress.Parse(name));
        }
        catch (Exception e) when (e is FormatException or PlatformNotSupportedException)
        {
            leftOut.Add(name);
            CannotServe(around.Logger, name, e.Message);
            around.Board.Set(
                new PortStatus
                {
                    Port = name,
                    Phase = PortPhase.Unsuitable,
                    Message = e.Message,
                    Since = around.Clock.Now.Utc,
                }
            );
            return null;
        }
    }

    /// <summary>A named port that appears is not kept waiting for the end of a long pause.</summary>
    private void WakeThoseThatAppeared()
    {
        foreach (var supervisor in Served)
        {
            if (supervisor.Phase == PortPhase.Absent && File.Exists(PortAddress.Parse(supervisor.Name).Target))
                supervisor.Wake();
        }
    }

    private void WakeRefused()
    {
        foreach (var supervisor in Served)
        {
            if (supervisor.Phase == PortPhase.WrongInstrument)
                supervisor.Wake();
        }
    }

    private List<Task> StopAll()
    {
        lock (gate)
        {
            foreach (var port in served.Values)
                port.Stop.Cancel();
            return [.. served.Values.Select(port => port.Running)];
        }
    }

    /// <summary>Each port draws its waits from a generator of its own, so that a run can be repeated.</summary>
    private Func<double> ChanceOf(string name)
    {
        var seed = (int)around.Host.Value;
        foreach (var c in name)
            seed = unchecked((seed * 31) + c);
        return new Random(seed).NextDouble;
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Port} is not served: {Message}")]
    private static partial void CannotServe(ILogger logger, string port, string message);

    [LoggerMessage(Level = LogLevel.Warning, Message = "The list of ports cannot be read: {Message}")]
    private static partial void CannotLook(ILogger logger, string message);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "{Port} is not served: {Most} ports are served already. Name the ports that are wanted, or raise Bridge:MaxPorts."
    )]
    private static partial void LeavesOut(ILogger logger, string port, int most);

    private sealed record ServedPort(PortSupervisor Supervisor, CancellationTokenSource Stop, Task Running);
}
