using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// What changes, as server-sent events. Each event is whole, so that whoever connects again needs nothing from before; a beat comes at
/// once and then every 10 s, by which a caller notices a dead line, and the service a caller that has gone.
/// </summary>
internal static class EventFeed
{
    /// <summary>The kind of an event that says nothing but that the line is alive.</summary>
    public const string Beat = "beat";

    /// <summary>How often the line gives a sign of life at least.</summary>
    public static readonly TimeSpan BeatEvery = TimeSpan.FromSeconds(10);

    /// <summary>The events as they come, and beats between them.</summary>
    /// <param name="views">What is shown, as it changes.</param>
    /// <param name="write">Makes an event of it.</param>
    /// <param name="isStill">Whether the caller may still see it; asked at every beat.</param>
    /// <param name="time">The clock.</param>
    /// <param name="stopping">The service stops.</param>
    /// <param name="gone">The caller has gone.</param>
    public static async IAsyncEnumerable<SseItem<string>> Of<T>(
        IAsyncEnumerable<T> views,
        Func<T, SseItem<string>> write,
        Func<bool> isStill,
        TimeProvider time,
        CancellationToken stopping,
        [EnumeratorCancellation] CancellationToken gone
    )
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stopping, gone);
        var number = 0L;
        await using var lane = views.GetAsyncEnumerator(end.Token);
        Task<bool>? next = null;
        try
        {
            yield return Alive(number);
            var beat = Task.Delay(BeatEvery, time, end.Token);
            next = lane.MoveNextAsync().AsTask();
            while (!end.IsCancellationRequested)
            {
                if (await Task.WhenAny(next, beat).ConfigureAwait(false) == next)
                {
                    if (!await HasMoreAsync(next).ConfigureAwait(false))
                    {
                        yield break;
                    }

                    var shown = write(lane.Current);
                    yield return new(shown.Data, shown.EventType) { EventId = Id(++number) };
                    next = lane.MoveNextAsync().AsTask();
                }
                else if (!end.IsCancellationRequested)
                {
                    if (!isStill())
                    {
                        yield break;
                    }

                    yield return Alive(number);
                    beat = Task.Delay(BeatEvery, time, end.Token);
                }
            }
        }
        finally
        {
            await end.CancelAsync().ConfigureAwait(false);
            if (next is not null)
            {
                await HasMoreAsync(next).ConfigureAwait(false);
            }
        }
    }

    private static async Task<bool> HasMoreAsync(Task<bool> next)
    {
        try
        {
            return await next.ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static SseItem<string> Alive(long number) => new("{}", Beat) { EventId = Id(number) };

    private static string Id(long number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
