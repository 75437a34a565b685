using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>The names of our cookies. Under TLS the prefix makes browsers hold them to this host and this path.</summary>
internal static class CookieNames
{
    /// <summary>Whether cookies go over TLS only.</summary>
    public static bool IsSecure(ConsoleSettings settings) => settings.CertificateFile is not null;

    /// <summary>The whole name of a cookie.</summary>
    public static string Of(ConsoleSettings settings, string name) => IsSecure(settings) ? $"__Host-{name}" : name;
}
