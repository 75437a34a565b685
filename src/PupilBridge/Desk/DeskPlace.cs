using System.Text;

namespace PupilBridge.Desk;

/// <summary>
/// Where the running service of a data folder listens: a Unix domain socket <c>run/desk.sock</c> in a folder that only
/// its owner may enter. Who may read the data folder may talk to its service, and nobody else.
/// </summary>
/// <remarks>
/// The path of a socket has room for 107 bytes on Linux and 103 on macOS. Where the data folder's own path is longer
/// than that allows, the service listens in a fresh private folder among the temporary files and leaves that path in
/// <c>run/desk.address</c>.
/// </remarks>
internal sealed class DeskPlace
{
    /// <summary>The most bytes of a socket's path that every supported system takes.</summary>
    public const int MaxPathBytes = 103;

    private readonly string folder;

    /// <summary>Names the place; nothing is made yet.</summary>
    /// <param name="dataFolder">Full path of the data folder.</param>
    public DeskPlace(string dataFolder) => folder = Path.Combine(dataFolder, "run");

    private string UsualPath => Path.Combine(folder, "desk.sock");

    private string AddressFile => Path.Combine(folder, "desk.address");

    private bool UsualPathFits => Encoding.UTF8.GetByteCount(UsualPath) <= MaxPathBytes;

    /// <summary>The socket's path as a command finds it.</summary>
    /// <returns>The path; null if no service can be listening.</returns>
    public string? Find()
    {
        if (UsualPathFits)
        {
            return File.Exists(UsualPath) ? UsualPath : null;
        }

        return
            File.Exists(AddressFile)
            && File.ReadAllText(AddressFile).Trim() is { Length: > 0 } path
            && File.Exists(path)
            ? path
            : null;
    }

    /// <summary>
    /// Makes the folder and clears away what an earlier service left behind. Only the holder of the data folder's lock
    /// may call this: it is what makes a socket file found here a stale one.
    /// </summary>
    /// <returns>A path to bind to.</returns>
    public string Prepare()
    {
        MakePrivate(folder);
        Clear();
        if (UsualPathFits)
        {
            return UsualPath;
        }

        var path = Path.Combine(Directory.CreateTempSubdirectory("pupilbridge-").FullName, "desk.sock");
        File.WriteAllText(AddressFile, path);
        return path;
    }

    /// <summary>Takes away the socket and what belongs to it.</summary>
    public void Clear()
    {
        File.Delete(UsualPath);
        if (!File.Exists(AddressFile))
        {
            return;
        }

        var elsewhere = File.ReadAllText(AddressFile).Trim();
        if (Path.GetFileName(elsewhere) == "desk.sock" && Path.GetDirectoryName(elsewhere) is { } temporary)
        {
            File.Delete(elsewhere);
            if (Directory.Exists(temporary) && !Directory.EnumerateFileSystemEntries(temporary).Any())
            {
                Directory.Delete(temporary);
            }
        }

        File.Delete(AddressFile);
    }

    private static void MakePrivate(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
            return;
        }

        const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        Directory.CreateDirectory(path, OwnerOnly);
        File.SetUnixFileMode(path, OwnerOnly);
    }
}
