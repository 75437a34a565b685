using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>Who is signed in, and the quick change of examiner at a lane.</summary>
internal static class SessionEndpoints
{
    /// <summary>Maps them.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/v1/session", Tell).AllowAnonymous();
        routes.MapPost(FormGuard.ChangePath, ChangeAsync).AllowAnonymous();
    }

    /// <summary>Tells who is signed in and until when. Asking is no activity; the token fits whoever is signed in now.</summary>
    private static IResult Tell(HttpContext context, SessionDoor door, SessionBook book, IAntiforgery forms) =>
        Results.Json(View(context, door, book, forms));

    private static async Task<IResult> ChangeAsync(
        ChangeRequest change,
        HttpContext context,
        SignInOffice office,
        SessionDoor door,
        SessionBook book,
        IAntiforgery forms
    )
    {
        var (status, words) = await office
            .TryAsync(context, change.Who ?? "", change.Password ?? "", change.Lane ?? "console")
            .ConfigureAwait(false);
        return words is null
            ? Results.Json(View(context, door, book, forms))
            : Results.Json(new { detail = words, nextStep = "" }, statusCode: status);
    }

    private static SessionView View(HttpContext context, SessionDoor door, SessionBook book, IAntiforgery forms)
    {
        var caller = CallerContext.Current(context);
        var session = door.Of(context);
        return new SessionView(
            caller.Who.Length > 0 ? caller.Who : null,
            [.. Roles.Each.Where(role => caller.Has(role)).Select(role => $"{role}".ToLowerInvariant())],
            session is null ? null : book.Until(session),
            book.Idle.TotalMinutes,
            session is null ? null : book.Left(session).TotalSeconds,
            forms.GetAndStoreTokens(context).RequestToken!
        );
    }

    /// <summary>What the quick change of examiner sends.</summary>
    /// <param name="Who">The sign-in name.</param>
    /// <param name="Password">The password.</param>
    /// <param name="Lane">The serial number of the lane's instrument.</param>
    internal sealed record ChangeRequest(string? Who, string? Password, string? Lane);

    /// <summary>Who is signed in.</summary>
    /// <param name="Who">The name; null for nobody.</param>
    /// <param name="Roles">The roles, in words.</param>
    /// <param name="Until">Until when, if nothing more is done; null for nobody.</param>
    /// <param name="IdleMinutes">After how many minutes without anything done a person is signed off.</param>
    /// <param name="SecondsLeft">After how many seconds the person is signed off whatever they do; null for nobody.</param>
    /// <param name="FormToken">What every request that changes something brings along in <c>X-PupilBridge-Form</c>.</param>
    internal sealed record SessionView(
        string? Who,
        IReadOnlyList<string> Roles,
        DateTimeOffset? Until,
        double IdleMinutes,
        double? SecondsLeft,
        string FormToken
    );
}
