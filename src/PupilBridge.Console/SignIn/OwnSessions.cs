using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Where else somebody is signed in, for that person alone, and the way to end any of it (OWASP ASVS 5.0, 7.5.2). What a lane elsewhere has not
/// sent yet stays in its browser, as after any sign-off.
/// </summary>
internal sealed class OwnSessions(SessionBook book, SessionDoor door, IPeopleDesk people)
{
    /// <summary>The caller's sessions, the oldest first; none for one who is not signed in by a session.</summary>
    public IReadOnlyList<Session> List(HttpContext context) => door.Of(context) is { } own ? book.Of(own.Who) : [];

    /// <summary>Ends one of the caller's sessions.</summary>
    /// <param name="context">The request.</param>
    /// <param name="tag">Which, by its tag.</param>
    /// <returns>False if the caller has no such session.</returns>
    public async Task<bool> EndAsync(HttpContext context, string tag)
    {
        if (List(context).FirstOrDefault(session => session.Tag == tag) is not { } session)
        {
            return false;
        }

        if (session == door.Of(context))
        {
            await door.LeaveAsync(context).ConfigureAwait(false);
            return true;
        }

        return await EndAsync(session).ConfigureAwait(false);
    }

    /// <summary>Ends all of the caller's sessions but the one that asks.</summary>
    /// <returns>How many ended.</returns>
    public async Task<int> EndOthersAsync(HttpContext context)
    {
        var own = door.Of(context);
        var ended = 0;
        foreach (var session in List(context).Where(session => session != own))
        {
            ended += await EndAsync(session).ConfigureAwait(false) ? 1 : 0;
        }

        return ended;
    }

    private async Task<bool> EndAsync(Session session)
    {
        if (!book.End(session.Id))
        {
            return false;
        }

        await people
            .SignedOffAsync(session.Who, session.Place.Where, SignOffReason.Person, CancellationToken.None)
            .ConfigureAwait(false);
        return true;
    }
}
