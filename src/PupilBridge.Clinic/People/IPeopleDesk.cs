namespace PupilBridge.Clinic.People;

/// <summary>
/// The people who may sign in. Names, roles and sign-ins are journalled; password hashes stand in a small rewritable file and
/// nowhere else.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
public interface IPeopleDesk : IKeyDesk
{
    /// <summary>Whether nobody is known yet, so that the first administrator can be made with the one-time code.</summary>
    bool WantsFirstAdministrator { get; }

    /// <summary>The one-time code for <see cref="MakeFirstAdministratorAsync"/>, shown on the terminal; null once there is a person.</summary>
    string? FirstCode { get; }

    /// <summary>Makes the first administrator.</summary>
    /// <param name="code">The one-time code from the terminal.</param>
    /// <param name="who">The sign-in name.</param>
    /// <param name="password">The password.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PersonOutcome> MakeFirstAdministratorAsync(
        string code,
        string who,
        string password,
        CancellationToken cancellationToken
    );

    /// <summary>Checks a sign-in name and password. Wrong ones are counted, and too many lock the name for a while.</summary>
    /// <param name="who">The sign-in name.</param>
    /// <param name="password">The password.</param>
    /// <param name="where">Where: the serial number of a lane's instrument, or <c>console</c>.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<SignInOutcome> SignInAsync(string who, string password, string where, CancellationToken cancellationToken);

    /// <summary>
    /// Asks somebody who is signed in for their password once more, before something that a stranger at their screen must not do. Wrong ones
    /// are counted and lock as at the sign-in.
    /// </summary>
    /// <param name="by">Who is signed in.</param>
    /// <param name="password">What they typed.</param>
    /// <param name="where">Where, as for a sign-in.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PersonOutcome> ConfirmAsync(Caller by, string password, string where, CancellationToken cancellationToken);

    /// <summary>Notes that someone signed off.</summary>
    /// <param name="who">Who.</param>
    /// <param name="where">Where.</param>
    /// <param name="why">Why.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task SignedOffAsync(string who, string where, SignOffReason why, CancellationToken cancellationToken);

    /// <summary>Adds a person. Only an administrator may.</summary>
    /// <param name="by">Who does it.</param>
    /// <param name="who">The sign-in name: 1 to 64 characters; initials will do.</param>
    /// <param name="roles">What they may do.</param>
    /// <param name="password">Their first password.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PersonOutcome> AddAsync(
        Caller by,
        string who,
        ClinicRole roles,
        string password,
        CancellationToken cancellationToken
    );

    /// <summary>Changes roles, locks a person out or lets them in again, or gives a new password. Only an administrator may.</summary>
    /// <param name="by">Who does it.</param>
    /// <param name="who">Whom it concerns.</param>
    /// <param name="change">What.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PersonOutcome> ChangeAsync(Caller by, string who, PersonChange change, CancellationToken cancellationToken);

    /// <summary>Changes one's own password.</summary>
    /// <param name="by">Who.</param>
    /// <param name="old">The password so far.</param>
    /// <param name="fresh">The new one.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<PersonOutcome> ChangeOwnPasswordAsync(
        Caller by,
        string old,
        string fresh,
        CancellationToken cancellationToken
    );

    /// <summary>All people, by name.</summary>
    IReadOnlyList<PersonView> List();

    /// <summary>One person; null if there is none of that name.</summary>
    /// <param name="who">The sign-in name; capitals do not matter.</param>
    PersonView? Find(string who);
}
