using System.Globalization;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>A person's state in words.</summary>
internal static class PersonWords
{
    /// <summary>Whether somebody may sign in now.</summary>
    public static string State(PersonView person, TimeProvider time) =>
        !person.IsEnabled ? SignInText.Words["State.Off"]
        : person.LockedUntil is { } until
            ? SignInText.Words.Get(
                "State.Locked",
                TimeZoneInfo.ConvertTime(until, time.LocalTimeZone).ToString("HH:mm", CultureInfo.InvariantCulture)
            )
        : SignInText.Words["State.May"];
}
