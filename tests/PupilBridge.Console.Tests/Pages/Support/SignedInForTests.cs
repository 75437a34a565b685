using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>Signs a test's browser in by headers, so that pages can be tried in every role without passwords.</summary>
internal sealed class SignedInForTests(
    IOptionsMonitor<AuthenticationSchemeOptions> options,
    ILoggerFactory log,
    UrlEncoder encoder
) : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
{
    public const string Who = "X-Test-Who";
    public const string Roles = "X-Test-Roles";
    private const string Name = "test";

    /// <summary>Takes the place of whatever sign-in the console has.</summary>
    public static void Add(IServiceCollection services)
    {
        services.AddAuthentication().AddScheme<AuthenticationSchemeOptions, SignedInForTests>(Name, null);
        services.PostConfigure<AuthenticationOptions>(all =>
        {
            all.DefaultScheme = Name;
            all.DefaultAuthenticateScheme = Name;
            all.DefaultChallengeScheme = Name;
            all.DefaultForbidScheme = Name;
        });
    }

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (Request.Headers[Who].ToString() is not { Length: > 0 } who)
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        var roles = Enum.Parse<ClinicRole>(Request.Headers[Roles].ToString());
        var claims = Enum.GetValues<ClinicRole>()
            .Where(role => role != 0 && roles.HasFlag(role))
            .Select(role => new Claim(ClaimTypes.Role, role.ToString()))
            .Append(new Claim(ClaimTypes.Name, who))
            .Append(new Claim(ClaimTypes.NameIdentifier, who));
        var user = new ClaimsPrincipal(new ClaimsIdentity(claims, Name));
        return Task.FromResult(AuthenticateResult.Success(new AuthenticationTicket(user, Name)));
    }
}
