using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.People;

/// <summary>What is said to people about signing in and about people; none of it tells a stranger whether a name exists.</summary>
internal static class PeopleWords
{
    public static string PasswordIsName => Words["Password.IsName"];

    public static string PasswordIsCommon => Words["Password.IsCommon"];

    public static string WrongSignIn => Words["SignIn.Wrong"];

    public static string Disabled => Words["SignIn.Disabled"];

    public static string OnlyAdministrators => Words["Person.OnlyAdministrators"];

    public static string LastAdministrator => Words["Person.LastAdministrator"];

    public static string WrongCode => Words["Code.Wrong"];

    public static string CodeIsVoid => Words["Code.Void"];

    public static string NoRole => Words["Person.NoRole"];

    public static string OldPasswordWrong => Words["Password.OldWrong"];

    public static string OwnPasswordWrong => Words["Password.OwnWrong"];

    public static string SamePassword => Words["Password.Same"];

    public static string OwnPasswordChanged => Words["Password.Changed"];

    public static string NothingToChange => Words["Person.NothingToChange"];

    public static string NameFault => Words.Get("Person.NameFault", ShortText.MaxLength);

    private static HouseText Words => ClinicText.People;

    public static string PasswordTooShort(int least) => Words.Get("Password.TooShort", least);

    public static string PasswordTooLong(int most) => Words.Get("Password.TooLong", most);

    public static string Locked(DateTimeOffset until, TimeZoneInfo zone) =>
        Words.Get("SignIn.Locked", TimeZoneInfo.ConvertTime(until, zone));

    public static string Exists(string who) => Words.Get("Person.Exists", who);

    public static string Nobody(string who) => Words.Get("Person.Nobody", who);

    public static string Added(string who) => Words.Get("Person.Added", who);

    public static string FirstAdded(string who) => Words.Get("Person.FirstAdded", who);

    public static string Changed(string who) => Words.Get("Person.Changed", who);
}
