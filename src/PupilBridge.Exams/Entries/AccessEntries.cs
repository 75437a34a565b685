namespace PupilBridge.Exams.Entries;

/// <summary>What a person may do in the clinic's program. Several may hold at once.</summary>
[Flags]
public enum PersonRoles
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>Examines.</summary>
    Examiner = 1,

    /// <summary>Reviews, signs and amends.</summary>
    Clinician = 2,

    /// <summary>Looks after instruments.</summary>
    Technician = 4,

    /// <summary>Looks after people and settings.</summary>
    Administrator = 8,
}

/// <summary>
/// A person was added, or what they may do was changed: the latest entry of a name holds. Passwords and their hashes never
/// stand here: the journal is for ever, and they must be forgettable.
/// </summary>
public sealed record PersonChanged : PersonEntry
{
    private readonly string what = "";

    /// <summary>Whom it concerns.</summary>
    public required PersonId Person { get; init; }

    /// <summary>What they may do from now on.</summary>
    public required PersonRoles Roles { get; init; }

    /// <summary>Whether they may sign in at all.</summary>
    public required bool IsEnabled { get; init; }

    /// <summary>What changed, in a short word such as <c>added</c>, <c>roles</c> or <c>password</c>; never a password itself.</summary>
    /// <exception cref="ArgumentException">It is longer than <see cref="ShortText.MaxLength"/>, or no short text.</exception>
    public required string What
    {
        get => what;
        init => what = ShortText.Checked(value, nameof(What), "What changed about a person");
    }
}

/// <summary>What happened at a sign-in.</summary>
public enum SignInKind
{
    /// <summary>The person signed in.</summary>
    SignedIn = 1,

    /// <summary>The person signed off.</summary>
    SignedOff = 2,

    /// <summary>The person was signed off because nothing was done for long.</summary>
    SignedOffIdle = 3,

    /// <summary>The sign-in was refused.</summary>
    Refused = 4,

    /// <summary>The sign-in was refused, and the name is locked for a while.</summary>
    LockedOut = 5,

    /// <summary>The person was signed off because they had been signed in for as long as anybody may; since version 2 of the entry.</summary>
    SignedOffLongest = 6,
}

/// <summary>A person signed in or off, or tried to.</summary>
public sealed record PersonSignedIn : PersonEntry
{
    private readonly string where = "";

    /// <summary>Whom it concerns: the name that was given.</summary>
    public required PersonId Person { get; init; }

    /// <summary>What happened.</summary>
    public required SignInKind Kind { get; init; }

    /// <summary>Where: the serial number of a lane's instrument, or <c>console</c>.</summary>
    /// <exception cref="ArgumentException">It is no short text.</exception>
    public required string Where
    {
        get => where;
        init => where = ShortText.Checked(value, nameof(Where), "The place of a sign-in");
    }
}
