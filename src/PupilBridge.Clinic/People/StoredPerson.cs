namespace PupilBridge.Clinic.People;

/// <summary>One person as the access file keeps them.</summary>
internal sealed record StoredPerson
{
    /// <summary>The sign-in name.</summary>
    public required string Who { get; init; }

    /// <summary>What they may do.</summary>
    public required ClinicRole Roles { get; init; }

    /// <summary>Whether they may sign in at all.</summary>
    public required bool IsEnabled { get; init; }

    /// <summary>The password's hash, in the framework's own format with salt and number of rounds.</summary>
    public required string PasswordHash { get; init; }

    /// <summary>Changes with password, roles and enabling; a session with another stamp is over.</summary>
    public required string Stamp { get; init; }

    /// <summary>Wrong passwords lately.</summary>
    public Attempts Attempts { get; init; } = Attempts.None;

    /// <summary>The same person as others may see them.</summary>
    /// <param name="now">The time, by which a lock that has run out is left away.</param>
    public PersonView View(DateTimeOffset now) =>
        new(Who, Roles, IsEnabled, Attempts.LockedUntil > now ? Attempts.LockedUntil : null, Stamp);
}
