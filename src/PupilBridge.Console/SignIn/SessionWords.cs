using System.Globalization;
using System.Net;

namespace PupilBridge.Console.SignIn;

/// <summary>A session in words, for the person whose it is.</summary>
internal static class SessionWords
{
    /// <summary>A number of hours.</summary>
    public static string Hours(TimeSpan time) => time.TotalHours.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>At a lane, or elsewhere in the console.</summary>
    public static string Where(SessionPlace place) =>
        place.Where == SessionPlace.Console
            ? SignInText.Words["Sessions.AtConsole"]
            : SignInText.Words.Get("Sessions.AtLane", place.Where);

    /// <summary>From which address.</summary>
    public static string Address(SessionPlace place) =>
        place.Address is null ? SignInText.Words["Sessions.Unknown"]
        : IPAddress.TryParse(place.Address, out var address) && IPAddress.IsLoopback(address)
            ? SignInText.Words.Get("Sessions.ThisMachine", place.Address)
        : place.Address;

    /// <summary>With which browser.</summary>
    public static string Browser(SessionPlace place) =>
        place.Browser switch
        {
            { Name: { } name, System: { } system } => SignInText.Words.Get("Sessions.BrowserOn", name, system),
            { Name: { } name } => name,
            _ => SignInText.Words["Sessions.Unknown"],
        };
}
