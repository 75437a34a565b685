using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Lets programs into the web API by a key in the header <c>Authorization: Bearer KEY</c> (RFC 6750, section 2.1). A key opens nothing but the
/// web API, and no page. A browser never sends that header by itself, so that another site cannot use a key in anybody's name.
/// </summary>
internal sealed class KeySignIn(
    IOptionsMonitor<AuthenticationSchemeOptions> options,
    ILoggerFactory logger,
    UrlEncoder encoder,
    IPeopleDesk people
) : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    /// <summary>The scheme's name, which is also what an identity says of how it was found.</summary>
    public const string SchemeName = "Key";

    /// <summary>The claim that names a scope.</summary>
    public const string ScopeClaim = "scope";

    private const string Bearer = "Bearer ";

    /// <summary>Whether a request brings a key along for the web API, right or wrong.</summary>
    public static bool IsBrought(HttpContext context) =>
        ApiAnswer.IsApi(context.Request)
        && context.Request.Headers.Authorization.ToString().StartsWith(Bearer, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether the caller of a request is a program with a key.</summary>
    public static bool IsKey(ClaimsPrincipal user) =>
        user.Identity is { IsAuthenticated: true, AuthenticationType: SchemeName };

    /// <inheritdoc/>
    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var brought = Request.Headers.Authorization.ToString();
        if (!brought.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        if (people.FindKey(brought[Bearer.Length..].Trim()) is not { } key)
        {
            return Task.FromResult(AuthenticateResult.Fail("no such key"));
        }

        var caller = key.Caller;
        var claims = key
            .Scopes.Select(scope => new Claim(ScopeClaim, scope))
            .Append(new Claim(ClaimTypes.NameIdentifier, caller.Who))
            .Append(new Claim(ClaimTypes.Name, caller.Who));
        var user = new ClaimsPrincipal(new ClaimsIdentity(claims, SchemeName));
        return Task.FromResult(AuthenticateResult.Success(new AuthenticationTicket(user, SchemeName)));
    }

    /// <inheritdoc/>
    protected override Task HandleChallengeAsync(AuthenticationProperties properties) =>
        ApiAnswer.WriteAsync(
            Context,
            StatusCodes.Status401Unauthorized,
            SignInText.Words["Api.SignedOff"],
            SignInText.Words["Api.SignedOffNext"]
        );
}
