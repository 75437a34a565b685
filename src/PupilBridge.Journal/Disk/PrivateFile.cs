namespace PupilBridge.Journal;

/// <summary>
/// Files and folders that only their owner may read and write (modes 0600 and 0700; on Windows the data folder's own permissions hold).
/// Failures are <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>.
/// </summary>
public static class PrivateFile
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const UnixFileMode Others =
        UnixFileMode.GroupRead
        | UnixFileMode.GroupWrite
        | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead
        | UnixFileMode.OtherWrite
        | UnixFileMode.OtherExecute;

    /// <summary>Makes a folder, and those above it, that only its owner may enter; what is there stays as it is.</summary>
    public static void MakeFolder(string path)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(path);
        else
            Directory.CreateDirectory(path, OwnerOnly | UnixFileMode.UserExecute);
    }

    /// <summary>Makes a file that must not exist, to be written; others may read it meanwhile.</summary>
    public static FileStream Make(string path) =>
        new(path, Options(FileMode.CreateNew, FileShare.Read, bufferBytes: 1 << 16));

    /// <summary>Opens a file, made if missing, that nobody else has open this way; the kernel lets go of it when the process ends.</summary>
    /// <exception cref="IOException">Somebody else has.</exception>
    public static FileStream OpenAlone(string path) =>
        new(path, Options(FileMode.OpenOrCreate, FileShare.None, bufferBytes: 0));

    /// <summary>
    /// Replaces a file's whole content, or leaves it as it was: never anything in between. When it returns, content and name are on the disk.
    /// </summary>
    public static void Replace(string path, ReadOnlySpan<byte> content)
    {
        string fresh = path + ".new";
        // What a crash left behind may have any mode.
        File.Delete(fresh);
        using (FileStream file = Make(fresh))
        {
            file.Write(content);
            file.Flush(flushToDisk: true);
        }
        File.Move(fresh, path, overwrite: true);
        RealDisk.Instance.SyncFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Closes a file to others.</summary>
    /// <returns>Whether it had been open to them.</returns>
    public static bool Close(string path)
    {
        if (OperatingSystem.IsWindows() || !File.Exists(path) || (File.GetUnixFileMode(path) & Others) == 0)
            return false;
        File.SetUnixFileMode(path, OwnerOnly);
        return true;
    }

    private static FileStreamOptions Options(FileMode mode, FileShare share, int bufferBytes)
    {
        FileStreamOptions options = new()
        {
            Mode = mode,
            Access = FileAccess.ReadWrite,
            Share = share,
            BufferSize = bufferBytes,
        };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = OwnerOnly;
        return options;
    }
}
