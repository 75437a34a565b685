using System.Security.Cryptography;

namespace PupilBridge.Clinic.People;

/// <summary>What a <see cref="PeopleDesk"/> is made of.</summary>
public sealed record PeopleParts
{
    /// <summary>The data folder, in which <c>access.json</c> lies.</summary>
    public required string DataFolder { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>The source of chance for stamps, ids and the first code.</summary>
    public required RandomNumberGenerator Random { get; init; }

    /// <summary>Where it is journalled; null beside a running service, which then journals changes that it finds in the file.</summary>
    public IPeopleJournal? Journal { get; init; }

    /// <summary>When wrong passwords lock a name.</summary>
    public LockoutRule Lockout { get; init; } = new();

    /// <summary>Rounds of new password hashes.</summary>
    public int HashRounds { get; init; } = PasswordCheck.DefaultRounds;

    /// <summary>How passwords are checked where it is not the usual way; a test counts the work.</summary>
    internal PasswordCheck? Passwords { get; init; }

    /// <summary>Told what whoever runs the service should know.</summary>
    public Action<string> Remark { get; init; } = _ => { };
}
