namespace PupilBridge.Tests.Support;

/// <summary>Finds files of the checkout that this test was built in.</summary>
internal static class Checkout
{
    private static readonly string Root = Find();

    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"No PupilBridge.sln above {AppContext.BaseDirectory}.");
    }
}
