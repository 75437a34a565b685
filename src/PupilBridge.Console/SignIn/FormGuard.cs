using System.Security.Claims;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Options;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Only our own pages change anything: what changes something must come from our own origin, and over the web API with the form
/// token in a header. (The tokens of forms are checked where forms are read.)
/// </summary>
internal sealed class FormGuard(IAntiforgery forms, IOptionsMonitor<CookieAuthenticationOptions> cookies)
{
    /// <summary>The header with the form token.</summary>
    public const string Header = "X-PupilBridge-Form";

    /// <summary>The path at which an examiner takes over a lane; it is asked after the one before was signed off, too.</summary>
    public const string ChangePath = "/api/v1/session/change";

    /// <summary>Refuses what does not come from our own pages.</summary>
    public async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        var request = context.Request;
        if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method))
        {
            await next(context).ConfigureAwait(false);
            return;
        }

        if (!IsOwnOrigin(request))
        {
            await ApiAnswer
                .WriteAsync(
                    context,
                    StatusCodes.Status403Forbidden,
                    SignInText.Words["Form.OtherOrigin"],
                    SignInText.Words["Form.OtherOriginNext"]
                )
                .ConfigureAwait(false);
            return;
        }

        // One who is not signed in is told so by the endpoint; only the change of examiner is open to them.
        var isGuarded =
            ApiAnswer.IsApi(request)
            // A key is sent by a program on purpose; there is no page whose token it could bring along.
            && (
                (context.User.Identity is { IsAuthenticated: true } && !KeySignIn.IsKey(context.User))
                || request.Path == ChangePath
            );
        if (isGuarded && !await IsOurFormAsync(context).ConfigureAwait(false))
        {
            // No words of refusal: a page that sees this gets itself a fresh token and sends again.
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }

        await next(context).ConfigureAwait(false);
    }

    /// <summary>Whether a request names our own origin. Browsers always name one when something is changed.</summary>
    private static bool IsOwnOrigin(HttpRequest request) =>
        request.Headers.Origin.ToString() is not { Length: > 0 } origin
        || origin.Equals($"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);

    private async Task<bool> IsOurFormAsync(HttpContext context)
    {
        var user = context.User;
        try
        {
            if (context.Request.Path == ChangePath && user.Identity is not { IsAuthenticated: true })
            {
                // The page still bears the token of whoever was signed off meanwhile. Their cookie says who that was; it opens nothing.
                context.User = LeftBehind(context) ?? user;
            }

            return await forms.IsRequestValidAsync(context).ConfigureAwait(false);
        }
        catch (AntiforgeryValidationException)
        {
            return false;
        }
        finally
        {
            context.User = user;
        }
    }

    private ClaimsPrincipal? LeftBehind(HttpContext context)
    {
        var options = cookies.Get(CookieAuthenticationDefaults.AuthenticationScheme);
        return options.CookieManager.GetRequestCookie(context, options.Cookie.Name!) is { } sealedTicket
            ? options.TicketDataFormat.Unprotect(sealedTicket)?.Principal
            : null;
    }
}
