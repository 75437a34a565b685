using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.SignIn;

/// <summary>Refusals of the web API: a few words for a person as JSON.</summary>
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
        return context.Response.WriteAsJsonAsync(new { detail, nextStep });
    }
}
