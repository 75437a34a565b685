namespace PupilBridge.Architecture.Tests;

/// <summary>Finds the checkout that this test was built in.</summary>
internal static class RepositoryRoot
{
    public static string Path { get; } = Find(AppContext.BaseDirectory);

    private static string Find(string start)
    {
        for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "PupilBridge.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"No PupilBridge.sln above {start}.");
    }
}
