namespace PupilBridge.Fuzz.Seeds;

/// <summary>The inputs that failed once, kept for good; each beside a text that says what it broke.</summary>
internal static class FailedBefore
{
    /// <summary>Where they lie: a folder for each target.</summary>
    public static string Folder => Repository.File("tests/PupilBridge.Fuzz.Tests/Failed");

    /// <summary>Those of one target.</summary>
    public static IEnumerable<byte[]> Of(string target) => Files(target).Select(File.ReadAllBytes);

    /// <summary>Their files, in order of their names.</summary>
    public static IEnumerable<string> Files(string target)
    {
        var folder = Path.Combine(Folder, target);
        return Directory.Exists(folder)
            ? Directory.EnumerateFiles(folder, "*.input").Order(StringComparer.Ordinal)
            : [];
    }
}
