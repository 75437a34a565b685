using Microsoft.Extensions.Logging;
using Polly;
using PupilBridge.Clinic.Outbox;

namespace PupilBridge.Exchange.Sending;

/// <summary>
/// Sends what is in the outbox: one patient's versions one after the other, in the order of their signatures; different patients
/// beside each other. What fails is tried again after longer and longer waits, and is never forgotten. A version that was refused
/// rests until a person decides, and lets the patient's later ones pass.
/// </summary>
public sealed partial class OutboxSender : IDisposable
{
    private readonly Heads heads;
    private readonly OneSending one;
    private readonly FhirServer server;
    private readonly ResiliencePipeline pipeline;
    private readonly Rests rests;
    private readonly SendingSettings settings;
    private readonly SendingNews news;
    private readonly TimeProvider time;
    private readonly ILogger log;
    private DateTimeOffset? lastSent;
    private string? trouble;

    /// <summary>Makes a sender; it does nothing before it runs.</summary>
    /// <param name="outbox">What is to be sent.</param>
    /// <param name="payloads">Makes messages of records.</param>
    /// <param name="settings">To whom, and how.</param>
    /// <param name="news">Where it tells how it goes.</param>
    /// <param name="time">The clock.</param>
    /// <param name="chance">Numbers from 0 to 1, from a seeded generator; asked by several threads, one at a time.</param>
    /// <param name="log">Where remarks go.</param>
    public OutboxSender(
        IOutbox outbox,
        IRecordPayloads payloads,
        SendingSettings settings,
        SendingNews news,
        TimeProvider time,
        Func<double> chance,
        ILogger log
    )
    {
        ArgumentNullException.ThrowIfNull(settings);
        (this.settings, this.news, this.time, this.log) = (settings, news, time, log);
        var gate = new Lock();
        double Chance()
        {
            lock (gate)
            {
                return chance();
            }
        }

        heads = new Heads(outbox, settings);
        server = new FhirServer(settings, time);
        one = new OneSending(outbox, payloads, server, settings);
        pipeline = TryPipeline.Build(settings, time, Chance);
        rests = new Rests(settings.Retry, time, Chance);
    }

    /// <summary>Sends until stopped. What is under way then is cut off, and taken up again by whoever runs next.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        var running = new Dictionary<string, Task<TryLaterException?>>(StringComparer.Ordinal);
        while (!stop.IsCancellationRequested)
        {
            await ReapAsync(running).ConfigureAwait(false);
            Start(running, stop);
            Tell();
            var wait = Task.Delay(settings.LookEvery, time, stop);
            await Task.WhenAny([.. running.Values, wait]).ConfigureAwait(false);
        }

        await Task.WhenAll(running.Values).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public void Dispose() => server.Dispose();

    private void Start(Dictionary<string, Task<TryLaterException?>> running, CancellationToken stop)
    {
        if (rests.OfServer() is not null)
        {
            return;
        }

        try
        {
            foreach (var (lane, task) in heads.Find(lane => running.ContainsKey(lane) || rests.IsResting(lane)))
            {
                if (running.Count >= settings.AtOnce)
                {
                    break;
                }

                running[lane] = Task.Run(() => TryAsync(task, rests.TriesOf(lane), stop), CancellationToken.None);
            }
        }
        catch (Clinic.EntryProblemException cannot)
        {
            // The exam log is being made anew, or cannot be read; it is looked at again.
            CannotLook(log, cannot.Message);
        }
    }

    private async Task ReapAsync(Dictionary<string, Task<TryLaterException?>> running)
    {
        foreach (var (lane, done) in running.Where(pair => pair.Value.IsCompleted).ToList())
        {
            running.Remove(lane);
            if (await done.ConfigureAwait(false) is { } later)
            {
                Later(lane, later);
            }
            else
            {
                rests.Passed(lane);
                (trouble, lastSent) = (null, time.GetUtcNow());
            }
        }
    }

    private void Later(string lane, TryLaterException later)
    {
        rests.Failed(lane, later);
        var said = later.IsServer
            ? SendingText.Get("Trouble.Server", settings.Name, settings.Address, later.Message)
            : later.Message;
        if (later.IsServer && trouble != said)
        {
            trouble = said;
            NotThrough(log, said);
        }
        else if (!later.IsServer)
        {
            NotYet(log, lane, said);
        }
    }

    private async Task<TryLaterException?> TryAsync(OutboxTask task, int triedBefore, CancellationToken stop)
    {
        var attempt = Math.Max(task.Attempts, triedBefore);
        try
        {
            await pipeline
                .ExecuteAsync(
                    async cancel =>
                        await one.RunAsync(task.Exam, task.Version, ++attempt, cancel).ConfigureAwait(false),
                    stop
                )
                .ConfigureAwait(false);
            return null;
        }
        catch (TryLaterException later)
        {
            return later;
        }
        catch (Exception e)
        {
            // Whatever it is, an exam log that broke or a journal that stopped: nothing is lost by trying again.
            return new TryLaterException(e.Message, isServer: false, inner: e);
        }
    }

    private void Tell() =>
        news.Tell(new SendingState(settings.Name, settings.Address.AbsoluteUri, trouble, rests.OfServer(), lastSent));

    [LoggerMessage(EventId = 40, Level = LogLevel.Warning, Message = "{Trouble} It is tried again by itself.")]
    private static partial void NotThrough(ILogger log, string trouble);

    [LoggerMessage(
        EventId = 41,
        Level = LogLevel.Information,
        Message = "The next record of {Lane} is not sent yet: {Reason} It is tried again by itself."
    )]
    private static partial void NotYet(ILogger log, string lane, string reason);

    [LoggerMessage(
        EventId = 42,
        Level = LogLevel.Information,
        Message = "The outbox cannot be read just now: {Reason}"
    )]
    private static partial void CannotLook(ILogger log, string reason);
}
