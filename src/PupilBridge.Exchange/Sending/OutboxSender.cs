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
    private readonly Dictionary<string, SendingDelay> delays = new(StringComparer.Ordinal);
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
        var running = new Dictionary<string, Running>(StringComparer.Ordinal);
        while (!stop.IsCancellationRequested)
        {
            await ReapAsync(running).ConfigureAwait(false);
            Start(running, stop);
            Tell();
            var wait = Task.Delay(settings.LookEvery, time, stop);
            await Task.WhenAny([.. running.Values.Select(one => one.Done), wait]).ConfigureAwait(false);
        }

        await Task.WhenAll(running.Values.Select(one => one.Done)).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public void Dispose() => server.Dispose();

    private void Start(Dictionary<string, Running> running, CancellationToken stop)
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

                var tried = rests.TriesOf(lane);
                running[lane] = new Running(task, Task.Run(() => TryAsync(task, tried, stop), CancellationToken.None));
            }
        }
        catch (Clinic.EntryProblemException cannot)
        {
            // The exam log is being made anew, or cannot be read; it is looked at again.
            CannotLook(log, cannot.Message);
        }
    }

    private async Task ReapAsync(Dictionary<string, Running> running)
    {
        foreach (var (lane, one) in running.Where(pair => pair.Value.Done.IsCompleted).ToList())
        {
            running.Remove(lane);
            var (end, later) = await one.Done.ConfigureAwait(false);
            if (later is not null)
            {
                Later(lane, one.Item, later);
                continue;
            }

            delays.Remove(lane);
            rests.Passed(lane, hasAnswered: end != TryEnd.NothingAsked);
            trouble = end == TryEnd.NothingAsked ? trouble : null;
            lastSent = end == TryEnd.Sent ? time.GetUtcNow() : lastSent;
        }
    }

    private void Later(string lane, OutboxTask item, TryLaterException later)
    {
        rests.Failed(lane, later);
        var words = later.InnerException is ServerUnreachableException ? "Trouble.Server" : "Trouble.Answer";
        var said = later.IsServer
            ? SendingText.Get(words, settings.Name, settings.Address, later.Message)
            : later.Message;
        delays[lane] = new SendingDelay(
            item.Exam,
            item.Version,
            Math.Max(item.Attempts, rests.TriesOf(lane)),
            later.Message
        );
        if (later.IsServer && trouble != said)
        {
            trouble = said;
            NotThrough(log, said.TrimEnd('.'));
        }
        else if (!later.IsServer)
        {
            NotYet(log, lane, said.TrimEnd('.'));
        }
    }

    private async Task<(TryEnd End, TryLaterException? Later)> TryAsync(
        OutboxTask task,
        int triedBefore,
        CancellationToken stop
    )
    {
        var attempt = Math.Max(task.Attempts, triedBefore);
        try
        {
            var end = await pipeline
                .ExecuteAsync(
                    async cancel =>
                        await one.RunAsync(task.Exam, task.Version, ++attempt, cancel).ConfigureAwait(false),
                    stop
                )
                .ConfigureAwait(false);
            return (end, null);
        }
        catch (TryLaterException later)
        {
            return (TryEnd.NothingAsked, later);
        }
        catch (Exception e)
        {
            // Whatever it is, an exam log that broke or a journal that stopped: nothing is lost by trying again.
            return (TryEnd.NothingAsked, new TryLaterException(e.Message, isServer: false, inner: e));
        }
    }

    private void Tell() =>
        news.Tell(
            new SendingState(settings.Name, settings.Address.AbsoluteUri, trouble, rests.OfServer(), lastSent)
            {
                Delays = [.. delays.Values],
            }
        );

    [LoggerMessage(EventId = 40, Level = LogLevel.Warning, Message = "{Trouble}; it is tried again by itself.")]
    private static partial void NotThrough(ILogger log, string trouble);

    [LoggerMessage(
        EventId = 41,
        Level = LogLevel.Information,
        Message = "The next record of {Lane} is not sent yet: {Reason}; it is tried again by itself."
    )]
    private static partial void NotYet(ILogger log, string lane, string reason);

    [LoggerMessage(
        EventId = 42,
        Level = LogLevel.Information,
        Message = "The outbox cannot be read just now: {Reason}"
    )]
    private static partial void CannotLook(ILogger log, string reason);

    /// <summary>A version under way.</summary>
    /// <param name="Item">The version.</param>
    /// <param name="Done">What came of it, or why it must be tried later.</param>
    private sealed record Running(OutboxTask Item, Task<(TryEnd End, TryLaterException? Later)> Done);
}
