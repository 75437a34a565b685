using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>Tries a name and a password: the pace first, then the people, then the door.</summary>
internal sealed class SignInOffice(IPeopleDesk people, SignInPace pace, SessionDoor door)
{
    /// <summary>Tries to sign in.</summary>
    /// <param name="context">The request.</param>
    /// <param name="who">The name that was typed.</param>
    /// <param name="password">The password.</param>
    /// <param name="where">Where.</param>
    /// <returns>The HTTP status of a refusal with words for the person; null words if they are in.</returns>
    public async Task<(int Status, string? Words)> TryAsync(
        HttpContext context,
        string who,
        string password,
        string where
    )
    {
        if (!pace.MayTry(context, who))
        {
            return (StatusCodes.Status429TooManyRequests, SignInText.Words["SignIn.TooOften"]);
        }

        var outcome = await people.SignInAsync(who, password, where, context.RequestAborted).ConfigureAwait(false);
        if (outcome.Person is not { } person)
        {
            return (StatusCodes.Status422UnprocessableEntity, outcome.Words);
        }

        await door.EnterAsync(context, person, where).ConfigureAwait(false);
        return (StatusCodes.Status200OK, null);
    }
}
