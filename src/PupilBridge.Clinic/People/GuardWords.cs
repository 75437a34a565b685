using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.People;

/// <summary>Roles in words.</summary>
public static class GuardWords
{
    /// <summary>The roles of which any is enough for a policy.</summary>
    /// <param name="policy">One of the names of <see cref="Roles"/>.</param>
    /// <returns>For example <c>examiner or clinician</c>.</returns>
    public static string OneOf(string policy) => string.Join(ClinicText.People["Guard.Or"], Words(Roles.All[policy]));

    /// <summary>Several roles.</summary>
    /// <param name="roles">The roles.</param>
    /// <returns>For example <c>examiner, administrator</c>; <c>none</c> for none.</returns>
    public static string List(ClinicRole roles) =>
        roles == 0 ? ClinicText.People["Role.None"] : string.Join(", ", Words(roles));

    /// <summary>One role's word.</summary>
    /// <param name="role">A single role.</param>
    public static string Word(ClinicRole role) =>
        Roles.Each.Contains(role)
            ? ClinicText.People.Of("Role", role)
            : throw new ArgumentOutOfRangeException(nameof(role), role, "Not a single role.");

    private static IEnumerable<string> Words(ClinicRole roles) =>
        Roles.Each.Where(role => roles.HasFlag(role)).Select(Word);
}
