using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Console.Layout;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.History;

namespace PupilBridge.Console.Plots;

/// <summary>The plot of a patient's sizes over time, as a picture of its own.</summary>
internal static class SizesPlotEndpoint
{
    private const int MostVisits = 100;

    /// <summary>The picture's own rules: it may style itself, and nothing else.</summary>
    private const string Policy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox";

    /// <summary>Serves it at <c>/patients/{id}/sizes.svg</c>, in the face that <c>face</c> in the query names.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/patients/{id}/sizes.svg", DrawAsync).RequireAuthorization("records");

    private static async Task<IResult> DrawAsync(
        string id,
        string? face,
        CallerDesks desks,
        TimeProvider time,
        HttpContext context
    )
    {
        var number = id.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);
        if (await desks.Records.ShowPatientAsync(number, context.RequestAborted).ConfigureAwait(false) is null)
        {
            return Results.NotFound();
        }

        var history = await desks
            .Records.HistoryAsync(number, MostVisits, context.RequestAborted)
            .ConfigureAwait(false);
        context.Response.Headers.ContentSecurityPolicy = Policy;
        context.Response.Headers.CacheControl = "no-store";
        var svg = HistoryPlot.Svg(history, isDark: face != FaceEndpoint.Light, time);
        return Results.Text(svg, "image/svg+xml", Encoding.UTF8);
    }
}
