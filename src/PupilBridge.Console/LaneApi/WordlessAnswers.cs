using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Gives the web API's refusals that come from the framework without words the same form as all others: problem details (RFC 9457).
/// A 400 to a page's own script stays empty: the page takes it as a sign to get itself a fresh form token.
/// </summary>
internal static class WordlessAnswers
{
    /// <summary>Puts itself around all that is mapped after it.</summary>
    public static void Use(WebApplication app) =>
        app.Use(next =>
            async context =>
            {
                await next(context).ConfigureAwait(false);
                if (ApiAnswer.IsApi(context.Request) && IsWordless(context.Response) && Problem(context) is { } problem)
                {
                    await problem.ExecuteAsync(context).ConfigureAwait(false);
                }
            }
        );

    private static bool IsWordless(HttpResponse response) =>
        response is { HasStarted: false, StatusCode: >= 400, ContentType: null, ContentLength: null };

    private static ProblemHttpResult? Problem(HttpContext context)
    {
        var (path, status) = (context.Request.Path, context.Response.StatusCode);
        return status switch
        {
            StatusCodes.Status400BadRequest when HttpMethods.IsGet(context.Request.Method) => Problems.Of(
                status,
                "BadValue",
                path
            ),
            StatusCodes.Status404NotFound => Problems.Of(status, "NoRoute", path),
            StatusCodes.Status405MethodNotAllowed => Problems.Of(status, "NoMethod", context.Request.Method, path),
            StatusCodes.Status415UnsupportedMediaType => Problems.Of(status, "NoType", path),
            >= 500 => Problems.Of(status, "Fault"),
            _ => null,
        };
    }
}
