using Microsoft.AspNetCore.Http;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// The headers by which a browser holds our pages to what they are: own scripts and styles out of files, no frames around them,
/// nothing sent anywhere else, nothing kept after it was shown.
/// </summary>
internal static class SecurityHeaders
{
    /// <summary>What a page may load and do. There is no inline script and no inline style anywhere.</summary>
    public const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; font-src 'self'; "
        + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>Puts the headers on every answer. One that brings a policy of its own, such as a plot, keeps it.</summary>
    public static Task AddAsync(HttpContext context, ConsoleSettings settings, RequestDelegate next)
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = headers.ContentSecurityPolicy is { Count: > 0 } own ? own : Policy;
            headers.XContentTypeOptions = "nosniff";
            headers.XFrameOptions = "DENY";
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] =
                "camera=(), microphone=(), geolocation=(), usb=(), serial=(), payment=(), display-capture=()";
            if (!context.Request.Path.StartsWithSegments("/assets"))
            {
                // Shared machines: what was shown of a patient is not in the cache for whoever comes next.
                headers.CacheControl = "no-store";
            }

            if (CookieNames.IsSecure(settings))
            {
                headers.StrictTransportSecurity = "max-age=31536000; includeSubDomains";
            }

            return Task.CompletedTask;
        });
        return next(context);
    }
}
