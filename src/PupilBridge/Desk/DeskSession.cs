using System.Net.Sockets;
using StreamJsonRpc;

namespace PupilBridge.Desk;

/// <summary>One command's connection as the service sees it: first the hello, then calls, until one side goes.</summary>
/// <typeparam name="TDesk">What commands can call.</typeparam>
/// <param name="connection">The accepted connection; the session owns it.</param>
/// <param name="desk">What commands can call.</param>
/// <param name="limits">What is taken at most.</param>
internal sealed class DeskSession<TDesk>(Socket connection, TDesk desk, DeskLimits limits) : IDeskGreeting, IDisposable
    where TDesk : class
{
    private readonly JsonRpc rpc = DeskWire.Join(
        new NetworkStream(connection, ownsSocket: true),
        limits.MaxRequestBytes
    );
    private readonly TaskCompletionSource greeted = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private bool isFull;

    /// <summary>Serves the connection.</summary>
    /// <param name="mayCall">False to answer the hello with the remark that too many commands are connected.</param>
    /// <param name="stopping">Ends the session.</param>
    /// <returns>Done when the connection has ended.</returns>
    public async Task RunAsync(bool mayCall, CancellationToken stopping)
    {
        isFull = !mayCall;
        rpc.AddLocalRpcTarget<IDeskGreeting>(this, null);
        if (mayCall)
        {
            rpc.AddLocalRpcTarget(RpcTargetMetadata.FromInterface(typeof(TDesk)), desk, null);
        }

        using var ending = stopping.Register(rpc.Dispose);
        rpc.StartListening();
        using var waiting = CancellationTokenSource.CreateLinkedTokenSource(stopping);
        waiting.CancelAfter(limits.HelloWithin);
        await Task.WhenAny(greeted.Task, rpc.Completion).WaitAsync(waiting.Token).ConfigureAwait(false);
        await rpc.Completion.WaitAsync(stopping).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public Task<DeskHello> HelloAsync(DeskHello hello, CancellationToken cancellationToken)
    {
        if (isFull)
        {
            throw new LocalRpcException($"{limits.MaxClients} commands are connected already; end one of them first.");
        }

        greeted.TrySetResult();
        return Task.FromResult(DeskHello.Own);
    }

    /// <inheritdoc/>
    public void Dispose() => rpc.Dispose();
}
