using System.Net.Sockets;
using Microsoft.Extensions.Logging;

namespace PupilBridge.Desk;

/// <summary>
/// The running service's side of the local socket: takes commands' connections, each with its own calls, until it is
/// stopped. Only the holder of the data folder's lock makes one.
/// </summary>
/// <typeparam name="TDesk">What commands can call.</typeparam>
internal sealed partial class DeskListener<TDesk> : IAsyncDisposable
    where TDesk : class
{
    private readonly DeskPlace place;
    private readonly TDesk desk;
    private readonly DeskLimits limits;
    private readonly ILogger log;
    private readonly CancellationTokenSource stopping = new();
    private readonly HashSet<Task> sessions = [];
    private readonly Lock gate = new();
    private readonly Socket socket;
    private readonly Task accepting;

    private DeskListener(DeskPlace place, TDesk desk, DeskLimits limits, ILogger log, Socket socket)
    {
        (this.place, this.desk, this.limits, this.log, this.socket) = (place, desk, limits, log, socket);
        accepting = AcceptAsync();
    }

    /// <summary>Starts to listen.</summary>
    /// <param name="place">Where; its folder is made if it is missing.</param>
    /// <param name="desk">What commands can call.</param>
    /// <param name="limits">What is taken at most.</param>
    /// <param name="log">Where remarks go.</param>
    /// <returns>The listener; dispose of it to stop.</returns>
    /// <exception cref="IOException">The folder cannot be made, or the socket cannot be bound.</exception>
    public static DeskListener<TDesk> Start(DeskPlace place, TDesk desk, DeskLimits limits, ILogger log)
    {
        var path = place.Prepare();
        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            // The folder is closed to others before the socket stands in it, so there is no moment without protection.
            socket.Bind(new UnixDomainSocketEndPoint(path));
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            }

            socket.Listen(limits.MaxClients);
            return new DeskListener<TDesk>(place, desk, limits, log, socket);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    /// <summary>Stops to listen, ends all connections and takes the socket away.</summary>
    /// <returns>Done when nothing is called any more.</returns>
    public async ValueTask DisposeAsync()
    {
        await stopping.CancelAsync().ConfigureAwait(false);
        socket.Dispose();
        await accepting.ConfigureAwait(false);
        await Task.WhenAll(OpenSessions()).ConfigureAwait(false);
        place.Clear();
        stopping.Dispose();
    }

    private Task[] OpenSessions()
    {
        lock (gate)
        {
            return [.. sessions];
        }
    }

    private async Task AcceptAsync()
    {
        while (!stopping.IsCancellationRequested)
        {
            try
            {
                var connection = await socket.AcceptAsync(stopping.Token).ConfigureAwait(false);
                Begin(connection);
            }
            catch (Exception fault) when (fault is OperationCanceledException or ObjectDisposedException)
            {
                return;
            }
            catch (SocketException fault)
            {
                if (stopping.IsCancellationRequested)
                {
                    return;
                }

                // Out of descriptors, most likely: wait until some command has gone instead of spinning.
                LogAcceptFailed(fault.Message);
                await Task.WhenAny(OpenSessions().Append(Task.Delay(1000, stopping.Token))).ConfigureAwait(false);
            }
        }
    }

    private void Begin(Socket connection)
    {
        lock (gate)
        {
            var mayCall = sessions.Count < limits.MaxClients;
            if (sessions.Count >= 2 * limits.MaxClients)
            {
                connection.Dispose();
                return;
            }

            var session = Task.Run(() => ServeAsync(connection, mayCall));
            sessions.Add(session);
            _ = session.ContinueWith(Forget, TaskScheduler.Default);
        }
    }

    private void Forget(Task session)
    {
        lock (gate)
        {
            sessions.Remove(session);
        }
    }

    private async Task ServeAsync(Socket connection, bool mayCall)
    {
        try
        {
            using var session = new DeskSession<TDesk>(connection, desk, limits);
            await session.RunAsync(mayCall, stopping.Token).ConfigureAwait(false);
        }
        catch (Exception fault)
        {
            // One command's broken connection must never reach the others or the service.
            LogSessionEnded(fault.Message);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The local socket could not take a command: {Reason}")]
    private partial void LogAcceptFailed(string reason);

    [LoggerMessage(Level = LogLevel.Debug, Message = "A command's connection ended: {Reason}")]
    private partial void LogSessionEnded(string reason);
}
