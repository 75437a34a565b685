using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace PupilBridge.Console.SignIn;

/// <summary>How much a request may bring along. What nobody needs is refused before it is read.</summary>
internal static class BodyLimits
{
    private const long Form = 16 << 10;

    private static readonly string[] OwnForms =
    [
        "/sign-in",
        "/first-start",
        "/sign-off",
        "/account",
        "/people",
        "/keys",
        "/outbox",
        "/erasing",
        "/api/v1/session",
    ];

    /// <summary>The most bytes of a request's body; null where another limit holds: that of entries, or the server's own.</summary>
    public static long? Of(PathString path) => OwnForms.Any(own => path.StartsWithSegments(own)) ? Form : null;

    /// <summary>Sets the limit, and refuses what says at once that it is longer.</summary>
    public static async Task SetAsync(HttpContext context, RequestDelegate next)
    {
        if (Of(context.Request.Path) is not { } most)
        {
            await next(context).ConfigureAwait(false);
            return;
        }

        if (context.Request.ContentLength > most)
        {
            await RefuseAsync(context, most).ConfigureAwait(false);
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = most;
        }

        try
        {
            await next(context).ConfigureAwait(false);
        }
        catch (BadHttpRequestException tooLong)
            when (tooLong.StatusCode == StatusCodes.Status413PayloadTooLarge && !context.Response.HasStarted)
        {
            context.Response.Clear();
            await RefuseAsync(context, most).ConfigureAwait(false);
        }
    }

    private static Task RefuseAsync(HttpContext context, long most)
    {
        if (ApiAnswer.IsApi(context.Request))
        {
            return ApiAnswer.WriteAsync(
                context,
                StatusCodes.Status413PayloadTooLarge,
                SignInText.Words.Get("Body.TooLong", most >> 10),
                SignInText.Words["Body.TooLongNext"]
            );
        }

        context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return Task.CompletedTask;
    }
}
