using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Layout;
using PupilBridge.Console.SignIn;
using PupilBridge.Exchange.History;

namespace PupilBridge.Console.Plots;

/// <summary>The plots of an instrument's history, each as a picture of its own.</summary>
internal static class DriftPlotEndpoint
{
    /// <summary>The picture's own rules: it may style itself, and nothing else.</summary>
    private const string Policy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox";

    /// <summary>The quantities by their words in addresses.</summary>
    public static IReadOnlyDictionary<string, DriftQuantity> Quantities { get; } =
        new Dictionary<string, DriftQuantity>(StringComparer.Ordinal)
        {
            ["offset"] = DriftQuantity.Offset,
            ["slope"] = DriftQuantity.Slope,
            ["home"] = DriftQuantity.Home,
        };

    /// <summary>Serves them at <c>/bench/drift/{instrument}/{quantity}.svg</c>, in the face that <c>face</c> in the query names.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        foreach (var (word, quantity) in Quantities)
        {
            routes
                .MapGet(
                    $"/bench/drift/{{instrument}}/{word}.svg",
                    (string instrument, string? face, CallerDesks desks, HttpContext context) =>
                        DrawAsync(instrument, quantity, face, desks, context)
                )
                .RequireAuthorization(Roles.Calibrations);
        }
    }

    private static async Task<IResult> DrawAsync(
        string instrument,
        DriftQuantity quantity,
        string? face,
        CallerDesks desks,
        HttpContext context
    )
    {
        if (await desks.Bench.DriftAsync(instrument, context.RequestAborted).ConfigureAwait(false) is not { } view)
        {
            return Results.NotFound();
        }

        context.Response.Headers.ContentSecurityPolicy = Policy;
        context.Response.Headers.CacheControl = "no-store";
        var svg = DriftPlot.Svg(view, quantity, isDark: face != FaceEndpoint.Light);
        return Results.Text(svg, "image/svg+xml", Encoding.UTF8);
    }
}
