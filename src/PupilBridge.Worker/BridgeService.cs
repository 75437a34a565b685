using Microsoft.Extensions.Hosting;

namespace PupilBridge.Worker;

/// <summary>Runs a <see cref="Bridge"/> as a service of the host: opened when the host starts, stopped with it.</summary>
/// <param name="parts">What the bridge is made of.</param>
public sealed class BridgeService(BridgeParts parts) : IHostedService, IAsyncDisposable
{
    private readonly TaskCompletionSource<Bridge> opened = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>The bridge, once it is open; fails like the start if that fails.</summary>
    public Task<Bridge> Opened => opened.Task;

    /// <summary>The bridge.</summary>
    /// <exception cref="InvalidOperationException">It is not open yet.</exception>
    public Bridge Bridge =>
        opened.Task.IsCompletedSuccessfully
            ? opened.Task.Result
            : throw new InvalidOperationException("The service has not started yet; wait until it has.");

    /// <inheritdoc/>
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        try
        {
            opened.SetResult(await Task.Run(() => Bridge.Open(parts), cancellationToken).ConfigureAwait(false));
        }
        catch (Exception e)
        {
            opened.TrySetException(e);
            _ = opened.Task.Exception;
            throw;
        }
    }

    /// <inheritdoc/>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        if (opened.Task.IsCompletedSuccessfully)
            await opened.Task.Result.StopAsync().WaitAsync(cancellationToken).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (opened.Task.IsCompletedSuccessfully)
            await opened.Task.Result.DisposeAsync().ConfigureAwait(false);
    }
}
