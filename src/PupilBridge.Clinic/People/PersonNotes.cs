using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.People;

/// <summary>Something about people that the journal keeps. It never holds a password or a hash.</summary>
[JsonDerivedType(typeof(PersonChangeNote), "change")]
[JsonDerivedType(typeof(SignInNote), "signIn")]
public abstract record PersonNote
{
    private protected PersonNote() { }

    /// <summary>The entry's id: 32 hexadecimal digits; a second note with the same id is the same, sent again.</summary>
    public required string Id { get; init; }

    /// <summary>Who did it.</summary>
    public required string By { get; init; }

    /// <summary>When.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Whom it concerns.</summary>
    public required string Person { get; init; }
}

/// <summary>A person was added or changed: what holds from then on.</summary>
public sealed record PersonChangeNote : PersonNote
{
    /// <summary>What they may do.</summary>
    public required ClinicRole Roles { get; init; }

    /// <summary>Whether they may sign in.</summary>
    public required bool IsEnabled { get; init; }

    /// <summary>What changed, in a word or a few: <c>added</c>, <c>roles</c>, <c>password</c>, <c>disabled</c>, <c>enabled</c>.</summary>
    public required string What { get; init; }
}

/// <summary>A person signed in or off, or tried to.</summary>
public sealed record SignInNote : PersonNote
{
    /// <summary>What happened.</summary>
    public required SignInEvent Event { get; init; }

    /// <summary>Where: the serial number of a lane's instrument, or <c>console</c>.</summary>
    public required string Where { get; init; }
}

/// <summary>What happened at a sign-in.</summary>
public enum SignInEvent
{
    /// <summary>The person signed in.</summary>
    SignedIn,

    /// <summary>The person signed off.</summary>
    SignedOff,

    /// <summary>The person was signed off because nothing was done for long.</summary>
    SignedOffIdle,

    /// <summary>The person was signed off because they had been signed in for as long as anybody may.</summary>
    SignedOffLongest,

    /// <summary>The sign-in was refused.</summary>
    Refused,

    /// <summary>The sign-in was refused because of too many wrong passwords.</summary>
    LockedOut,
}

/// <summary>Where notes about people are recorded for good.</summary>
public interface IPeopleJournal
{
    /// <summary>Records a note, once, however often it is given.</summary>
    /// <param name="note">The note.</param>
    /// <param name="cancellationToken">Gives up waiting; it may be recorded all the same.</param>
    /// <returns>Done once it is on disk.</returns>
    Task RecordAsync(PersonNote note, CancellationToken cancellationToken);
}
