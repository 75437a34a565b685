using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Hosting;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// The boards of one lane as server-sent events. Each board is whole, so that whoever connects again needs nothing from before; a beat
/// comes at once and then every 10 s, by which a page notices a dead line, and the service a page that has gone.
/// </summary>
internal static class LaneEvents
{
    /// <summary>The kind of an event that holds a board.</summary>
    public const string Board = "board";

    /// <summary>The kind of an event that says nothing but that the line is alive.</summary>
    public const string Beat = "beat";

    /// <summary>How often the line gives a sign of life at least.</summary>
    internal static readonly TimeSpan BeatEvery = TimeSpan.FromSeconds(10);

    /// <summary>Watches the lane until the page goes or the service stops.</summary>
    public static IResult Watch(
        string serial,
        HttpContext context,
        CallerDesks desks,
        TimeProvider time,
        IHostApplicationLifetime lifetime
    )
    {
        IAsyncEnumerable<LaneBoard> boards;
        try
        {
            boards = desks.Lanes.WatchLaneAsync(serial, CancellationToken.None);
        }
        catch (EntryProblemException)
        {
            // The text can be no serial number, so that waiting for the instrument would never end.
            return Problems.NoLane(serial);
        }

        return TypedResults.ServerSentEvents(Of(boards, time, lifetime.ApplicationStopping, context.RequestAborted));
    }

    /// <summary>The events: boards as they come, and beats between them.</summary>
    internal static async IAsyncEnumerable<SseItem<string>> Of(
        IAsyncEnumerable<LaneBoard> boards,
        TimeProvider time,
        CancellationToken stopping,
        [EnumeratorCancellation] CancellationToken gone
    )
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stopping, gone);
        var number = 0L;
        await using var lane = boards.GetAsyncEnumerator(end.Token);
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

                    yield return Shown(lane.Current, ++number);
                    next = lane.MoveNextAsync().AsTask();
                }
                else if (!end.IsCancellationRequested)
                {
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

    private static SseItem<string> Shown(LaneBoard board, long number) =>
        new(JsonSerializer.Serialize(board, ClinicJson.Default.LaneBoard), Board) { EventId = Id(number) };

    private static SseItem<string> Alive(long number) => new("{}", Beat) { EventId = Id(number) };

    private static string Id(long number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
