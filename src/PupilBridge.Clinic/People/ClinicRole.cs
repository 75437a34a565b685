namespace PupilBridge.Clinic.People;

/// <summary>What a person may do. One person may have several roles.</summary>
[Flags]
public enum ClinicRole
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>Examines: the lane, what is entered about an exam, patients, the day's list, attaching, splitting and moving.</summary>
    Examiner = 1,

    /// <summary>All that an examiner may, and reviews, signs, amends and sets aside.</summary>
    Clinician = 2,

    /// <summary>Looks after instruments. Sees no patient's data.</summary>
    Technician = 4,

    /// <summary>Looks after people and settings. Sees patients' data only with another role.</summary>
    Administrator = 8,
}

/// <summary>Who asks for something, and what they may do.</summary>
/// <param name="Who">The sign-in name.</param>
/// <param name="Roles">The roles.</param>
public sealed record Caller(string Who, ClinicRole Roles)
{
    /// <summary>What a program's key opens, as names of <see cref="People.Roles"/>; null for a person, whose roles count.</summary>
    public IReadOnlyList<string>? Scopes { get; init; }

    /// <summary>Whether the caller has one of these roles.</summary>
    /// <param name="any">One or several roles.</param>
    public bool Has(ClinicRole any) => (Roles & any) != 0;
}
