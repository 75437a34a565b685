namespace PupilBridge.Clinic.People;

/// <summary>One person who may sign in.</summary>
/// <param name="Who">The sign-in name.</param>
/// <param name="Roles">What they may do.</param>
/// <param name="IsEnabled">Whether they may sign in at all.</param>
/// <param name="LockedUntil">Until when too many wrong passwords keep them out, in UTC; null if they do not.</param>
/// <param name="Stamp">Changes with password, roles and enabling; a session with another stamp is over.</param>
public sealed record PersonView(
    string Who,
    ClinicRole Roles,
    bool IsEnabled,
    DateTimeOffset? LockedUntil,
    string Stamp
);

/// <summary>What changes about a person; what is null stays.</summary>
/// <param name="Roles">New roles.</param>
/// <param name="IsEnabled">Whether they may sign in.</param>
/// <param name="Password">A new password.</param>
public sealed record PersonChange(ClinicRole? Roles = null, bool? IsEnabled = null, string? Password = null);

/// <summary>What of a person was typed or ticked.</summary>
public enum PersonField
{
    /// <summary>The one-time code of the first start.</summary>
    Code = 1,

    /// <summary>The sign-in name.</summary>
    Who = 2,

    /// <summary>The roles.</summary>
    Roles = 3,

    /// <summary>The password so far.</summary>
    OldPassword = 4,

    /// <summary>The new password.</summary>
    Password = 5,
}

/// <summary>Whether something about a person was done.</summary>
/// <param name="Done">Whether it was.</param>
/// <param name="Words">What happened, or what is in the way and what to do next, for a person.</param>
/// <param name="Wrong">What is to be typed anew; null if nothing was wrong, or nothing of what was typed.</param>
public sealed record PersonOutcome(bool Done, string Words, PersonField? Wrong = null);

/// <summary>What became of a sign-in.</summary>
/// <param name="Person">Who signed in; null if it was refused.</param>
/// <param name="Words">Why it was refused and what to do next; empty if it was not. It does not tell whether the name exists.</param>
public sealed record SignInOutcome(PersonView? Person, string Words);
