using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Asks with each request whether the session still stands: not signed off, not idle, and the person unchanged since. What a person
/// does keeps it going; what a page asks by itself does not.
/// </summary>
internal sealed class SessionCheck(SessionBook book, TimeProvider time) : CookieAuthenticationEvents
{
    private static readonly TimeSpan RenewAfter = TimeSpan.FromHours(1);

    public override Task ValidatePrincipal(CookieValidatePrincipalContext context)
    {
        if (
            context.Principal?.FindFirstValue(SessionDoor.SessionClaim) is not { } id
            || book.Find(id) is not { } session
        )
        {
            // The cookie stays: a lane's page that was signed off can prove by it whose form it still shows.
            context.RejectPrincipal();
            return Task.CompletedTask;
        }

        if (IsActivity(context.Request))
        {
            book.Touch(session);
        }

        context.ShouldRenew = time.GetUtcNow() - context.Properties.IssuedUtc > RenewAfter;
        return Task.CompletedTask;
    }

    public override Task RedirectToLogin(RedirectContext<CookieAuthenticationOptions> context)
    {
        if (ApiAnswer.IsApi(context.Request))
        {
            return ApiAnswer.WriteAsync(
                context.HttpContext,
                StatusCodes.Status401Unauthorized,
                SignInText.Words["Api.SignedOff"],
                SignInText.Words["Api.SignedOffNext"]
            );
        }

        // What was sent by a form is still in the browser, one page back.
        var wasForm = !HttpMethods.IsGet(context.Request.Method);
        context.Response.Redirect(
            wasForm
                ? "/sign-in?form=1"
                : $"/sign-in?then={Uri.EscapeDataString($"{context.Request.Path}{context.Request.QueryString}")}"
        );
        return Task.CompletedTask;
    }

    /// <summary>Whether a request is something a person did, rather than what a page asks by itself.</summary>
    private static bool IsActivity(HttpRequest request) =>
        !request.Path.StartsWithSegments("/assets") && !(ApiAnswer.IsApi(request) && HttpMethods.IsGet(request.Method));
}
