using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.Layout;

/// <summary>
/// Gives every answer without words a page with words: what happened, and what to do. Whatever a page throws ends here, and the
/// service goes on.
/// </summary>
internal static class FaultPages
{
    /// <summary>Where the page for a status is, for the console alone: <c>/fault/404</c>.</summary>
    public const string Path = "/fault";

    /// <summary>Puts itself around all that is mapped after it.</summary>
    public static void Use(WebApplication app) => app.Use(next => context => HandleAsync(next, context));

    /// <summary>What was thrown while the request was answered; null if nothing was.</summary>
    public static Exception? ThrownIn(HttpContext? context) => context?.Items[typeof(FaultPages)] as Exception;

    /// <summary>Says of a page that what it should show is not here.</summary>
    /// <param name="context">The request.</param>
    /// <param name="what">What is not here, and what to do.</param>
    public static void SayNotHere(HttpContext context, NotHere what)
    {
        context.Response.StatusCode = StatusCodes.Status404NotFound;
        context.Items[typeof(NotHere)] = what;
    }

    /// <summary>What is not here; null if a page said nothing of that kind.</summary>
    public static NotHere? NotHereIn(HttpContext? context) => context?.Items[typeof(NotHere)] as NotHere;

    /// <summary>The path that was asked for at first.</summary>
    public static string AskedFor(HttpContext context) =>
        context.Items[Path] as string ?? context.Request.Path.ToString();

    private static async Task HandleAsync(RequestDelegate next, HttpContext context)
    {
        try
        {
            await next(context).ConfigureAwait(false);
        }
        catch (NotAllowedException refused) when (!context.Response.HasStarted)
        {
            Note(context, refused, StatusCodes.Status403Forbidden);
        }
        catch (EntryProblemException problem) when (!context.Response.HasStarted)
        {
            Note(context, problem, StatusCodes.Status422UnprocessableEntity);
        }
        catch (BadHttpRequestException refused) when (!context.Response.HasStarted)
        {
            // Too long, too slow or cut off: the caller's doing, and no fault of the page.
            Note(context, refused, refused.StatusCode);
        }
        catch (Exception noForm) when (IsNoForm(noForm) && !context.Response.HasStarted)
        {
            Note(context, noForm, StatusCodes.Status400BadRequest);
        }
        catch (Exception thrown) when (!context.Response.HasStarted && !context.RequestAborted.IsCancellationRequested)
        {
            Log(context, thrown);
            Note(context, thrown, StatusCodes.Status500InternalServerError);
        }

        if (IsWordless(context))
        {
            await AnswerAsync(next, context).ConfigureAwait(false);
        }
    }

    /// <summary>Whether the framework's reader of forms gave up: a body that is none, has too many fields, or one that is too long.</summary>
    private static bool IsNoForm(Exception thrown) =>
        thrown is InvalidDataException or IOException && thrown.Source == "Microsoft.AspNetCore.WebUtilities";

    private static bool IsWordless(HttpContext context) =>
        context.Response is { HasStarted: false, StatusCode: >= 400 and < 600, ContentLength: null }
        && (
            context.Response.ContentType is null
            || context.Response.ContentType.StartsWith("text/html", StringComparison.Ordinal)
        )
        && !context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal)
        && !context.Request.Path.StartsWithSegments("/assets", StringComparison.Ordinal);

    private static void Note(HttpContext context, Exception thrown, int status)
    {
        context.Response.Clear();
        context.Response.StatusCode = status;
        context.Items[typeof(FaultPages)] = thrown;
    }

    /// <summary>
    /// Answers once more with the page for the status, in a scope of its own: what the first try left half done must not be met again.
    /// It is read, whatever was asked for at first, since a form that was refused for its token would be refused again.
    /// </summary>
    private static async Task AnswerAsync(RequestDelegate next, HttpContext context)
    {
        var status = context.Response.StatusCode;
        context.Items[Path] = context.Request.Path.ToString();
        context.Response.Clear();
        context.Response.StatusCode = status;
        context.Features.Set<IStatusCodeReExecuteFeature>(
            new StatusCodeReExecuteFeature
            {
                OriginalPath = context.Request.Path,
                OriginalPathBase = context.Request.PathBase,
            }
        );
        context.SetEndpoint(null);
        context.Features.Get<IRouteValuesFeature>()?.RouteValues.Clear();
        context.Request.Method = HttpMethods.Get;
        context.Request.Path = $"{Path}/{status}";
        context.Request.QueryString = QueryString.Empty;
        var services = context.RequestServices;
        var scope = services.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope();
        await using (scope.ConfigureAwait(false))
        {
            context.RequestServices = scope.ServiceProvider;
            try
            {
                await next(context).ConfigureAwait(false);
            }
            finally
            {
                context.RequestServices = services;
            }
        }
    }

    private static void Log(HttpContext context, Exception thrown) =>
        context
            .RequestServices.GetService<ILoggerFactory>()
            ?.CreateLogger("PupilBridge.Console")
            .LogError(thrown, "The page {Path} could not be made.", context.Request.Path);
}

/// <summary>Something that a page should show and that is not here.</summary>
/// <param name="Title">What it is.</param>
/// <param name="Words">What happened, and what to do.</param>
/// <param name="Path">A way on.</param>
/// <param name="PathWords">The way's words.</param>
internal sealed record NotHere(string Title, string Words, string Path, string PathWords);
