using System.Net.ServerSentEvents;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Hosting;
using PupilBridge.Clinic;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>What goes on at every instrument, as server-sent events: first each lane as it is, then each again whenever it changed.</summary>
internal static class AllEvents
{
    /// <summary>The kind of an event that holds a lane.</summary>
    public const string Lane = "lane";

    /// <summary>Watches until the caller goes, may not see it any more, or the service stops.</summary>
    public static IResult Watch(
        string? instrument,
        HttpContext context,
        CallerDesks desks,
        TimeProvider time,
        IHostApplicationLifetime lifetime
    ) =>
        TypedResults.ServerSentEvents(
            EventFeed.Of(
                desks.Clinic.WatchAsync(instrument, CancellationToken.None),
                static view => new SseItem<string>(JsonSerializer.Serialize(view, ClinicJson.Default.LaneView), Lane),
                CallerStill.Of(context),
                time,
                lifetime.ApplicationStopping,
                context.RequestAborted
            )
        );
}
