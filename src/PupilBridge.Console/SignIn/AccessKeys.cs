namespace PupilBridge.Console.SignIn;

/// <summary>The folder <c>access-keys</c> in the data folder: what seals cookies and forms. Only its owner may enter.</summary>
internal static class AccessKeys
{
    /// <summary>Makes the folder, or closes to others one that is there.</summary>
    /// <returns>Its path.</returns>
    public static string Make(string dataFolder)
    {
        var path = Path.Combine(dataFolder, "access-keys");
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
            return path;
        }

        const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        Directory.CreateDirectory(path, OwnerOnly);
        File.SetUnixFileMode(path, OwnerOnly);
        return path;
    }
}
