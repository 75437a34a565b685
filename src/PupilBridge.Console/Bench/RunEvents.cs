using System.Net.ServerSentEvents;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Hosting;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.LaneApi;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.Bench;

/// <summary>
/// Tells a page that its run has changed, by server-sent events at <c>/bench/runs/{run}/events</c>. An event says how many readings
/// count and nothing more: the page asks for itself anew, so that there is one way in which a run is shown.
/// </summary>
internal static class RunEvents
{
    /// <summary>Maps it.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/bench/runs/{run:long}/events", Watch).RequireAuthorization(Roles.Calibrations);

    private static ServerSentEventsResult<string> Watch(
        long run,
        HttpContext context,
        CallerDesks desks,
        TimeProvider time,
        IHostApplicationLifetime lifetime
    ) =>
        TypedResults.ServerSentEvents(
            EventFeed.Of(
                desks.Bench.WatchRunAsync(run, CancellationToken.None),
                Changed,
                CallerStill.Of(context),
                time,
                lifetime.ApplicationStopping,
                context.RequestAborted
            )
        );

    private static SseItem<string> Changed(BenchRunView view) =>
        new(
            JsonSerializer.Serialize(new Dictionary<string, int> { ["readings"] = view.Readings.Count }),
            LaneEvents.Board
        );
}
