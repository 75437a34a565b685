using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Streams;

/// <summary>Files and folders that only their owner can look into.</summary>
internal static class PrivateFolder
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a folder, and those above it, if they are missing.</summary>
    public static void Make(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, OwnerOnly | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Makes a file that must not exist.</summary>
    public static FileStream NewFile(string path)
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.Read,
            BufferSize = 1 << 16,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        return new FileStream(path, options);
    }

    /// <summary>Writes a file whole: beside it, brought to the disk, and given its name.</summary>
    public static void Replace(string path, byte[] bytes)
    {
        var beside = path + ".part";
        File.Delete(beside);
        using (var file = NewFile(beside))
        {
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite: true);
        RealDisk.Instance.SyncFolder(Path.GetDirectoryName(path)!);
    }
}
