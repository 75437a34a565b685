using Microsoft.AspNetCore.Authorization;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>Which roles a page needs, by the policy's name.</summary>
internal static class PagePolicies
{
    private const ClinicRole Examining = ClinicRole.Examiner | ClinicRole.Clinician;

    private static readonly Dictionary<string, ClinicRole> Table = new(StringComparer.Ordinal)
    {
        ["lane"] = Examining,
        ["patients"] = Examining,
        ["records"] = Examining,
        ["sign"] = ClinicRole.Clinician,
        ["instruments"] = Examining | ClinicRole.Technician,
        ["people"] = ClinicRole.Administrator,
    };

    /// <summary>The roles of which any one is enough.</summary>
    /// <param name="policy">The policy's name.</param>
    public static ClinicRole RolesOf(string policy) => Table.GetValueOrDefault(policy);

    /// <summary>Registers the policies.</summary>
    public static void Add(AuthorizationOptions options)
    {
        foreach (var (name, roles) in Table)
        {
            options.AddPolicy(
                name,
                policy => policy.RequireAuthenticatedUser().RequireRole(Enum.GetValues<ClinicRole>().Where(Is(roles)).Select(role => role.ToString()))
            );
        }
    }

    private static Func<ClinicRole, bool> Is(ClinicRole roles) => one => one != 0 && roles.HasFlag(one);
}
