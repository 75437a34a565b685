using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.People;

/// <summary>How the list of people changes. Pure: from a list to a list, with words for whoever asked.</summary>
internal static class PersonSteps
{
    /// <summary>Whether a text can be a sign-in name. Brackets are kept for entries that no person made.</summary>
    public static bool IsName(string who) => ShortText.IsValid(who) && who.IndexOfAny(['(', ')']) < 0;

    /// <summary>Why a person cannot be added.</summary>
    /// <returns>Null if they can.</returns>
    public static PersonOutcome? CannotAdd(AccessList list, string who, ClinicRole roles, string password) =>
        !IsName(who) ? No(PeopleWords.NameFault, PersonField.Who)
        : list.Find(who) is { } same ? No(PeopleWords.Exists(same.Who), PersonField.Who)
        : (roles & AllRoles) == 0 || (roles & ~AllRoles) != 0 ? No(PeopleWords.NoRole, PersonField.Roles)
        : PasswordRules.Fault(password, who) is { } fault ? No(fault, PersonField.Password)
        : null;

    /// <summary>Why a person cannot be changed so.</summary>
    /// <returns>Null if they can.</returns>
    public static PersonOutcome? CannotChange(AccessList list, string who, PersonChange change) =>
        list.Find(who) is not { } person ? No(PeopleWords.Nobody(who))
        : change is { Roles: null, IsEnabled: null, Password: null } ? No(PeopleWords.NothingToChange)
        : change.Roles is { } roles && ((roles & AllRoles) == 0 || (roles & ~AllRoles) != 0)
            ? No(PeopleWords.NoRole, PersonField.Roles)
        : change.Password is { } password && PasswordRules.Fault(password, person.Who) is { } fault
            ? No(fault, PersonField.Password)
        : list.HasAdministrator && !list.With(Changed(person, change, "", "")).HasAdministrator
            ? No(PeopleWords.LastAdministrator, change.Roles is null ? null : PersonField.Roles)
        : null;

    private static PersonOutcome No(string words, PersonField? wrong = null) => new(false, words, wrong);

    /// <summary>A person with a change applied.</summary>
    /// <param name="person">As they were.</param>
    /// <param name="change">What changes.</param>
    /// <param name="hash">The new password's hash, where there is one.</param>
    /// <param name="stamp">A fresh stamp: whoever is signed in with the old one is signed off.</param>
    public static StoredPerson Changed(StoredPerson person, PersonChange change, string hash, string stamp) =>
        person with
        {
            Roles = change.Roles ?? person.Roles,
            IsEnabled = change.IsEnabled ?? person.IsEnabled,
            PasswordHash = change.Password is null ? person.PasswordHash : hash,
            Stamp = stamp,
            // A new password, or being let in again, also ends a lock.
            Attempts = change.Password is not null || change.IsEnabled == true ? Attempts.None : person.Attempts,
        };

    /// <summary>What changes, in a few words for the journal.</summary>
    public static string What(PersonChange change) =>
        string.Join(
            ", ",
            new[]
            {
                change.Roles is null ? null : "roles",
                change.IsEnabled switch
                {
                    true => "enabled",
                    false => "disabled",
                    null => null,
                },
                change.Password is null ? null : "password",
            }.Where(word => word is not null)
        );

    private const ClinicRole AllRoles =
        ClinicRole.Examiner | ClinicRole.Clinician | ClinicRole.Technician | ClinicRole.Administrator;
}
