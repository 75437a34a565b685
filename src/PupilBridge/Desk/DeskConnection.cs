using System.Net.Sockets;
using PupilBridge.CommandLine;
using StreamJsonRpc;

namespace PupilBridge.Desk;

/// <summary>A command's connection to the running service of a data folder.</summary>
/// <typeparam name="TDesk">What can be called.</typeparam>
internal sealed class DeskConnection<TDesk> : IDisposable
    where TDesk : class
{
    private readonly JsonRpc rpc;

    private DeskConnection(JsonRpc rpc, DeskHello service)
    {
        this.rpc = rpc;
        Service = service;
        Desk = DeskWire.Calls<TDesk>(rpc);
    }

    /// <summary>What the service said of itself.</summary>
    public DeskHello Service { get; }

    /// <summary>The calls. A broken connection ends them with <see cref="ConnectionLostException"/>.</summary>
    public TDesk Desk { get; }

    /// <summary>Done when the service has gone.</summary>
    public Task Ended => rpc.Completion;

    /// <summary>Connects, if a service answers.</summary>
    /// <param name="place">Where the service of the data folder listens.</param>
    /// <param name="limits">What is taken at most.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The connection; null if there is no socket or nobody behind it.</returns>
    /// <exception cref="CommandFailure">Something answers and cannot be talked to.</exception>
    public static async Task<DeskConnection<TDesk>?> TryOpenAsync(
        DeskPlace place,
        DeskLimits limits,
        CancellationToken cancellation
    )
    {
        if (place.Find() is not { } path)
        {
            return null;
        }

        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(path), cancellation).ConfigureAwait(false);
        }
        catch (SocketException fault)
        {
            socket.Dispose();
            return IsNobodyThere(fault.SocketErrorCode) ? null : throw Forbidden(path, fault);
        }

        var rpc = DeskWire.Join(new NetworkStream(socket, ownsSocket: true), limits.MaxReplyBytes);
        try
        {
            rpc.StartListening();
            return new DeskConnection<TDesk>(rpc, await GreetAsync(rpc, limits, cancellation).ConfigureAwait(false));
        }
        catch
        {
            rpc.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => rpc.Dispose();

    private static async Task<DeskHello> GreetAsync(JsonRpc rpc, DeskLimits limits, CancellationToken cancellation)
    {
        using var waiting = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        waiting.CancelAfter(limits.HelloWithin);
        try
        {
            var hello = await DeskWire
                .Calls<IDeskGreeting>(rpc)
                .HelloAsync(DeskHello.Own, waiting.Token)
                .ConfigureAwait(false);
            return hello.Protocol == DeskHello.ProtocolSpoken ? hello : throw OtherVersion(hello);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            throw new CommandFailure(
                ExitCode.NoService,
                $"The running service did not answer within {limits.HelloWithin.TotalSeconds:0} s.",
                "Look at the service's own messages; restart it if it hangs. Nothing that was acknowledged is lost by that."
            );
        }
        catch (Exception fault) when (fault is RemoteRpcException or ConnectionLostException)
        {
            throw new CommandFailure(
                ExitCode.NoService,
                $"The running service did not take the command: {fault.Message}",
                "Run the command again in a moment."
            );
        }
    }

    private static bool IsNobodyThere(SocketError error) =>
        error is SocketError.ConnectionRefused or SocketError.AddressNotAvailable or SocketError.NotConnected;

    private static CommandFailure Forbidden(string path, SocketException fault) =>
        new(
            ExitCode.NoService,
            $"The running service's socket {path} cannot be used: {fault.Message}",
            "Run the command as the account that the service runs under."
        );

    private static CommandFailure OtherVersion(DeskHello hello) =>
        new(
            ExitCode.NoService,
            $"The running service (process {hello.Process}, program {hello.Program}) speaks version {hello.Protocol} of the local "
                + $"protocol, this command speaks {DeskHello.ProtocolSpoken}.",
            "Restart the service, so that both are the same program."
        );
}
