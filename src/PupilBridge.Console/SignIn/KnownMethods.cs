using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// The methods that anything here answers to. Any other (TRACE, CONNECT, OPTIONS, those of WebDAV) is refused before anything is looked up for
/// it, so that nothing is echoed and no other site is told that it may ask.
/// </summary>
internal static class KnownMethods
{
    /// <summary>For the header <c>Allow</c>.</summary>
    private const string All = "GET, HEAD, POST";

    /// <summary>Refuses the others.</summary>
    public static Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        var method = context.Request.Method;
        if (HttpMethods.IsGet(method) || HttpMethods.IsHead(method) || HttpMethods.IsPost(method))
        {
            return next(context);
        }

        context.Response.StatusCode = StatusCodes.Status405MethodNotAllowed;
        context.Response.Headers.Allow = All;
        return Task.CompletedTask;
    }
}
