using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Exchange.Sending;

namespace PupilBridge.Scenarios.Sending;

/// <summary>One run of a sender, from its start until it is stopped.</summary>
public sealed class SendingRun : IAsyncDisposable
{
    private readonly CancellationTokenSource stop = new();
    private readonly OutboxSender sender;
    private readonly Task running;

    /// <summary>Starts to send.</summary>
    /// <param name="outbox">What is to be sent.</param>
    /// <param name="settings">To whom, and how.</param>
    /// <param name="payloads">Makes messages; null for the plain ones.</param>
    /// <param name="seed">The seed of chance.</param>
    public SendingRun(IOutbox outbox, SendingSettings settings, IRecordPayloads? payloads = null, int seed = 1)
    {
        sender = new OutboxSender(
            outbox,
            payloads ?? new PlainPayloads(),
            settings,
            News,
            TimeProvider.System,
            new Random(seed).NextDouble,
            NullLogger.Instance
        );
        running = Task.Run(() => sender.RunAsync(stop.Token));
    }

    /// <summary>How it goes.</summary>
    public SendingNews News { get; } = new();

    /// <summary>Settings with short waits, for a server on this machine.</summary>
    public static SendingSettings To(SmallFhirServer server) =>
        new()
        {
            Name = "hospital",
            Address = server.Address,
            Timeout = TimeSpan.FromSeconds(5),
            LookEvery = TimeSpan.FromMilliseconds(20),
            Retry = new RetryTiming { First = TimeSpan.FromMilliseconds(20), Cap = TimeSpan.FromMilliseconds(200) },
        };

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running;
        sender.Dispose();
        stop.Dispose();
    }
}
