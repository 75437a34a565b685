using System.Security.Claims;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>Who the caller of a request is, by the claims of their sign-in.</summary>
public static class CallerContext
{
    /// <summary>Someone who is not signed in.</summary>
    public static readonly Caller Nobody = new("", ClinicRole.None);

    /// <summary>The caller: the name claim and one role claim for each role.</summary>
    /// <param name="context">The request.</param>
    /// <returns><see cref="Nobody"/> for one who is not signed in.</returns>
    public static Caller Current(HttpContext? context) =>
        context?.User is { Identity: { IsAuthenticated: true, Name: { Length: > 0 } name } } user
            ? new Caller(name, RolesOf(user)) { Scopes = KeySignIn.IsKey(user) ? ScopesOf(user) : null }
            : Nobody;

    private static List<string> ScopesOf(ClaimsPrincipal user) =>
        [.. user.FindAll(KeySignIn.ScopeClaim).Select(claim => claim.Value)];

    private static ClinicRole RolesOf(ClaimsPrincipal user) =>
        user.FindAll(ClaimTypes.Role)
            .Select(claim => Enum.TryParse<ClinicRole>(claim.Value, ignoreCase: true, out var role) ? role : 0)
            .Aggregate(ClinicRole.None, (all, one) => all | one);
}
