using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>How a person comes in and goes: the session, its cookie, and the note in the journal.</summary>
internal sealed class SessionDoor(SessionBook book, IPeopleDesk people, Seat seat)
{
    /// <summary>The claim that names the session.</summary>
    public const string SessionClaim = "session";

    private const string Scheme = CookieAuthenticationDefaults.AuthenticationScheme;

    /// <summary>Lets a person in whose password was right. Whoever was signed in here before is signed off.</summary>
    public async Task EnterAsync(HttpContext context, PersonView person, string where)
    {
        await EndAsync(context, where).ConfigureAwait(false);
        var session = book.Begin(person, SessionPlace.Of(context, where));
        var user = Principal(person, session);
        seat.Note(context, person.Who);
        await context.SignInAsync(Scheme, user).ConfigureAwait(false);
        context.User = user;
    }

    /// <summary>Goes on as a new session after the person's own change ended the old one.</summary>
    public async Task RenewAsync(HttpContext context, PersonView person)
    {
        var user = Principal(person, book.Begin(person, SessionPlace.Of(context, SessionPlace.Console)));
        seat.Note(context, person.Who);
        await context.SignInAsync(Scheme, user).ConfigureAwait(false);
        context.User = user;
    }

    /// <summary>Signs off whoever is signed in.</summary>
    public async Task LeaveAsync(HttpContext context)
    {
        await EndAsync(context, null).ConfigureAwait(false);
        await context.SignOutAsync(Scheme).ConfigureAwait(false);
        context.User = new ClaimsPrincipal(new ClaimsIdentity());
    }

    /// <summary>The session of a request; null for one who is not signed in.</summary>
    public Session? Of(HttpContext? context) =>
        context?.User.FindFirstValue(SessionClaim) is { } id ? book.Find(id) : null;

    private async Task EndAsync(HttpContext context, string? where)
    {
        if (Of(context) is { } session && book.End(session.Id))
        {
            await people
                .SignedOffAsync(session.Who, where ?? session.Place.Where, SignOffReason.Person, CancellationToken.None)
                .ConfigureAwait(false);
        }
    }

    private static ClaimsPrincipal Principal(PersonView person, Session session)
    {
        var claims = Roles
            .Each.Where(role => person.Roles.HasFlag(role))
            .Select(role => new Claim(ClaimTypes.Role, role.ToString()))
            .Append(new Claim(ClaimTypes.NameIdentifier, person.Who))
            .Append(new Claim(ClaimTypes.Name, person.Who))
            .Append(new Claim(SessionClaim, session.Id));
        return new ClaimsPrincipal(new ClaimsIdentity(claims, Scheme));
    }
}
