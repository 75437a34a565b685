using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;

namespace PupilBridge.Console.SignIn;

/// <summary>Refusals of the web API before any endpoint is reached: problem details (RFC 9457) with words for a person.</summary>
internal static class ApiAnswer
{
    /// <summary>Whether a request is for the web API rather than for a page.</summary>
    public static bool IsApi(HttpRequest request) => request.Path.StartsWithSegments("/api");

    /// <summary>Refuses with words.</summary>
    /// <param name="context">The request.</param>
    /// <param name="status">The HTTP status.</param>
    /// <param name="detail">What happened.</param>
    /// <param name="nextStep">What to do next.</param>
    public static Task WriteAsync(HttpContext context, int status, string detail, string nextStep)
    {
        context.Response.StatusCode = status;
        if (status == StatusCodes.Status401Unauthorized)
        {
            context.Response.Headers.WWWAuthenticate = "Bearer";
        }

        return context.Response.WriteAsJsonAsync(
            new
            {
                type = "about:blank",
                title = ReasonPhrases.GetReasonPhrase(status),
                status,
                detail,
                nextStep,
            },
            options: null,
            contentType: "application/problem+json",
            context.RequestAborted
        );
    }
}
