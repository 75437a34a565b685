namespace PupilBridge.Console.SignIn;

/// <summary>
/// A browser in plain words, so that a person knows again where they signed in. What a browser says of itself proves nothing, and nothing is
/// decided by it.
/// </summary>
/// <param name="Name">The browser; null for one that is not known.</param>
/// <param name="System">The operating system; null for one that is not known.</param>
internal sealed record CallingBrowser(string? Name, string? System)
{
    /// <summary>In this order, since most browsers also name those whose pages they can show (RFC 9110, section 10.1.5).</summary>
    private static readonly (string Mark, string Name)[] Names =
    [
        ("Edg/", "Edge"),
        ("OPR/", "Opera"),
        ("Firefox/", "Firefox"),
        ("FxiOS/", "Firefox"),
        ("CriOS/", "Chrome"),
        ("Chrome/", "Chrome"),
        ("Safari/", "Safari"),
    ];

    private static readonly (string Mark, string Name)[] Systems =
    [
        ("Windows", "Windows"),
        ("Android", "Android"),
        ("iPhone", "iPhone"),
        ("iPad", "iPad"),
        ("Mac OS X", "macOS"),
        ("CrOS", "ChromeOS"),
        ("Linux", "Linux"),
    ];

    /// <summary>Reads what a browser says of itself. Nothing of it is kept but words from the lists above.</summary>
    /// <param name="userAgent">The header <c>User-Agent</c>; null or empty where there is none.</param>
    public static CallingBrowser Of(string? userAgent) => new(First(Names, userAgent), First(Systems, userAgent));

    private static string? First((string Mark, string Name)[] known, string? text) =>
        text is null
            ? null
            : known.FirstOrDefault(one => text.Contains(one.Mark, StringComparison.OrdinalIgnoreCase)).Name;
}
