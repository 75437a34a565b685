using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Asks whoever is signed in for their password once more, before what a stranger at a screen that was left must not do (OWASP ASVS 5.0, 7.5.1
/// and 7.5.2). Pace and lock are those of the sign-in.
/// </summary>
internal sealed class PasswordAgain(IPeopleDesk people, SignInPace pace)
{
    /// <summary>Checks what was typed.</summary>
    /// <param name="context">The request.</param>
    /// <param name="password">What was typed; nothing counts as no try.</param>
    /// <returns>The HTTP status of a refusal with words for the person; null words if it is them.</returns>
    public async Task<(int Status, string? Words)> CheckAsync(HttpContext context, string password)
    {
        if (password.Length == 0)
        {
            return (StatusCodes.Status422UnprocessableEntity, SignInText.Words["Again.Missing"]);
        }

        var caller = CallerContext.Current(context);
        if (!pace.MayTry(context, caller.Who))
        {
            return (StatusCodes.Status429TooManyRequests, SignInText.Words["SignIn.TooOften"]);
        }

        var outcome = await people
            .ConfirmAsync(caller, password, SessionPlace.Console, context.RequestAborted)
            .ConfigureAwait(false);
        return (StatusCodes.Status422UnprocessableEntity, outcome.Done ? null : outcome.Words);
    }
}
