namespace PupilBridge.Clinic.Text;

/// <summary>The language of all words for people in this process. It is chosen once, at the start.</summary>
public static class HouseLanguage
{
    /// <summary>English: complete, and what every other language is translated from.</summary>
    public const string English = "en";

    /// <summary>
    /// No language of people, but one for tests: every letter bears a mark, each text is at least 40 % longer and stands in ⟦ ⟧. A text
    /// on a page that looks otherwise did not come from the resource files; one that is cut off or breaks the layout would do so in
    /// a longer language.
    /// </summary>
    public const string Pseudo = "qps-ploc";

    private static volatile string current = English;

    /// <summary>The languages that can be chosen.</summary>
    public static IReadOnlyList<string> All { get; } = [English, Pseudo];

    /// <summary>The language chosen.</summary>
    public static string Current => current;

    /// <summary>Chooses the language.</summary>
    /// <param name="name">One of <see cref="All"/>; capitals do not matter.</param>
    /// <exception cref="EntryProblemException">It is none of them; the message lists what is.</exception>
    public static void Use(string name) => current = Checked(name);

    /// <summary>Reads the name of a language.</summary>
    /// <param name="name">One of <see cref="All"/>; capitals do not matter.</param>
    /// <returns>The name as it stands in <see cref="All"/>.</returns>
    /// <exception cref="EntryProblemException">It is none of them; the message lists what is.</exception>
    public static string Checked(string? name) =>
        All.FirstOrDefault(one => one.Equals(name, StringComparison.OrdinalIgnoreCase))
        ?? throw new EntryProblemException(ClinicText.House.Get("Language.Unknown", name, string.Join(", ", All)));
}
