using System.Globalization;

namespace PupilBridge.Clinic.People;

/// <summary>What is said to people about signing in and about people; in one place, and never telling whether a name exists.</summary>
internal static class PeopleWords
{
    public const string PasswordIsName = "The password is the sign-in name, or little more. Choose another.";

    public const string PasswordIsCommon =
        "This password is one of those that are guessed first. Choose another; a few words in a row are good and easy to type.";

    public const string WrongSignIn =
        "Name or password is wrong. Check whether capitals are locked, and try again; an administrator can give a new password.";

    public const string Disabled = "This sign-in was switched off. Ask an administrator to switch it on again.";

    public const string OnlyAdministrators = "Only an administrator may do this. Ask one, or sign in as one.";

    public const string LastAdministrator =
        "This is the last administrator who can sign in. Make somebody else an administrator first.";

    public const string WrongCode =
        "This is not the code. It stands on the terminal or in the log of the service since its last start; capitals and hyphens do not matter.";

    public const string CodeIsVoid =
        "There are people already, so the code is void. Sign in, or add a person on this machine with 'pupilbridge people add'.";

    public const string NoRole = "Choose at least one role.";

    public const string OldPasswordWrong = "The password so far is wrong; nothing was changed. Type it again.";

    public const string SamePassword = "The new password is the one so far. Choose another.";

    public const string NothingToChange = "There is nothing to change.";

    public static readonly string NameFault =
        $"A sign-in name has 1 to {Exams.Entries.ShortText.MaxLength} characters, no brackets, and no blank at either end. Initials will do.";

    public static string PasswordTooShort(int least) =>
        $"A password has at least {least} characters; a few words in a row are good. Choose a longer one.";

    public static string PasswordTooLong(int most) =>
        $"A password has at most {most} characters. Choose a shorter one.";

    public static string Locked(DateTimeOffset until, TimeZoneInfo zone) =>
        $"Too many wrong passwords: this name is locked until {TimeZoneInfo.ConvertTime(until, zone).ToString("HH:mm", CultureInfo.InvariantCulture)}. "
        + "Try again then, or ask an administrator for a new password.";

    public static string Exists(string who) =>
        $"There is a person {who} already (capitals do not matter). Choose another name, or change that person.";

    public static string Nobody(string who) =>
        $"There is no person {who}. Look at the list of people for the right name.";

    public static string Added(string who) => $"{who} can sign in now.";

    public static string FirstAdded(string who) => $"{who} is the administrator now and can sign in.";

    public static string Changed(string who) => $"{who} was changed.";

    public static string OwnPasswordChanged =>
        "Your password was changed. Other places where you were signed in are signed off.";
}
