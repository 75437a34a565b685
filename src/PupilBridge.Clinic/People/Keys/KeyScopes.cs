namespace PupilBridge.Clinic.People;

/// <summary>What a key can open: policies of <see cref="Roles"/>. Signing and looking after people need a person who signed in.</summary>
public static class KeyScopes
{
    /// <summary>All scopes.</summary>
    public static IReadOnlyList<string> All { get; } = [Roles.Lane, Roles.Patients, Roles.Records, Roles.Instruments];
}
