namespace PupilBridge.Fuzz.Seeds;

/// <summary>Where the repository's files lie.</summary>
internal static class Repository
{
    private static readonly string Root = Find();

    /// <summary>The full path of a file of the repository.</summary>
    public static string File(string relative) => Path.Combine(Root, relative);

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (System.IO.File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
                return folder.FullName;
        }

        throw new FileNotFoundException(
            "The repository was not found above the program: run it from a checkout, by dotnet run --project tests/PupilBridge.Fuzz."
        );
    }
}
