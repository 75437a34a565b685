using Microsoft.AspNetCore.Authorization;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>The policies that pages name, out of the table of <see cref="Roles"/>. What names none still needs a sign-in.</summary>
internal static class PagePolicies
{
    /// <summary>Registers the policies.</summary>
    public static void Add(AuthorizationOptions options)
    {
        foreach (var (name, roles) in Roles.All)
        {
            var words = Roles.Each.Where(role => roles.HasFlag(role)).Select(role => role.ToString());
            options.AddPolicy(name, policy => policy.RequireAuthenticatedUser().RequireRole(words));
        }

        // A page that forgot to say who may see it is at least not open to everybody.
        options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build();
    }
}
