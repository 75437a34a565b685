using System.Net.ServerSentEvents;
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
    public const string Beat = EventFeed.Beat;

    /// <summary>How often the line gives a sign of life at least.</summary>
    internal static readonly TimeSpan BeatEvery = EventFeed.BeatEvery;

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

        return TypedResults.ServerSentEvents(
            EventFeed.Of(
                boards,
                Shown,
                CallerStill.Of(context),
                time,
                lifetime.ApplicationStopping,
                context.RequestAborted
            )
        );
    }

    /// <summary>The events: boards as they come, and beats between them.</summary>
    internal static IAsyncEnumerable<SseItem<string>> Of(
        IAsyncEnumerable<LaneBoard> boards,
        TimeProvider time,
        CancellationToken stopping,
        CancellationToken gone
    ) => EventFeed.Of(boards, Shown, static () => true, time, stopping, gone);

    private static SseItem<string> Shown(LaneBoard board) =>
        new(JsonSerializer.Serialize(board, ClinicJson.Default.LaneBoard), Board);
}
