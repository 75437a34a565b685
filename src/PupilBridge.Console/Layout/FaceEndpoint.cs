using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace PupilBridge.Console.Layout;

/// <summary>The dark face for darkened rooms and the light one for review; the browser keeps which one in a cookie.</summary>
internal static class FaceEndpoint
{
    /// <summary>The cookie's name.</summary>
    public const string Cookie = "face";

    /// <summary>The face for darkened rooms.</summary>
    public const string Dark = "dark";

    /// <summary>The face for review and paper.</summary>
    public const string Light = "light";

    /// <summary>Which face a request is answered in: dark, unless the other was chosen.</summary>
    public static string Of(HttpContext? context) => context?.Request.Cookies[Cookie] == Light ? Light : Dark;

    /// <summary>Takes the choice and leads back to where it was made.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapPost("/face", Choose).AllowAnonymous();

    private static Microsoft.AspNetCore.Http.HttpResults.RedirectHttpResult Choose(
        HttpContext context,
        [FromForm] string? face,
        [FromForm] string? back
    )
    {
        context.Response.Cookies.Append(
            Cookie,
            face == Light ? Light : Dark,
            new CookieOptions
            {
                HttpOnly = false,
                IsEssential = true,
                MaxAge = TimeSpan.FromDays(365),
                Path = "/",
                SameSite = SameSiteMode.Strict,
                Secure = context.Request.IsHttps,
            }
        );
        return TypedResults.LocalRedirect(IsOwn(back) ? back! : "/");
    }

    private static bool IsOwn(string? path) =>
        path is ['/', ..] && path is not ['/', '/' or '\\', ..] && !path.Any(char.IsControl);
}
