namespace PupilBridge.Clinic.People;

/// <summary>The wrong passwords that were given for one name.</summary>
/// <param name="Wrong">How many since the last right one or the last lock.</param>
/// <param name="Locks">How many locks since the last right one; each is longer than the one before.</param>
/// <param name="LockedUntil">Until when the name is locked, in UTC; null if it never was.</param>
internal sealed record Attempts(int Wrong, int Locks, DateTimeOffset? LockedUntil)
{
    /// <summary>No wrong password.</summary>
    public static Attempts None { get; } = new(0, 0, null);
}
