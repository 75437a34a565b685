using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.People;

/// <summary>Files that only their owner may read and write (mode 0600; on Windows the data folder's own permissions hold).</summary>
internal static class PrivateFile
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const UnixFileMode Others =
        UnixFileMode.GroupRead
        | UnixFileMode.GroupWrite
        | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead
        | UnixFileMode.OtherWrite
        | UnixFileMode.OtherExecute;

    /// <summary>Reads a file; one that others may read is closed to them first, and that is told.</summary>
    /// <returns>Null if there is none.</returns>
    /// <exception cref="AccessFileException">It cannot be read.</exception>
    public static byte[]? TryRead(string path, Action<string> remark)
    {
        try
        {
            if (!OperatingSystem.IsWindows() && File.Exists(path) && (File.GetUnixFileMode(path) & Others) != 0)
            {
                File.SetUnixFileMode(path, OwnerOnly);
                remark(ClinicText.People.Get("File.WasOpen", path));
            }

            return File.ReadAllBytes(path);
        }
        catch (Exception none) when (none is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new AccessFileException(ClinicText.People.Get("File.CannotRead", path, fault.Message), fault);
        }
    }

    /// <summary>Makes a folder that only its owner may enter; one that is there stays as it is.</summary>
    public static void MakeFolder(string path)
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

    /// <summary>Replaces a file's whole content, or leaves it as it was: never anything in between.</summary>
    public static void Replace(string path, ReadOnlySpan<byte> content)
    {
        var fresh = path + ".new";
        // What a crash left behind may have any mode.
        File.Delete(fresh);
        using (var stream = new FileStream(fresh, Options(FileMode.CreateNew, FileShare.None)))
        {
            stream.Write(content);
            stream.Flush(flushToDisk: true);
        }

        File.Move(fresh, path, overwrite: true);
    }

    /// <summary>Opens a file that nobody else has open this way; the kernel lets go of it when the process ends.</summary>
    /// <exception cref="IOException">Somebody else has.</exception>
    public static FileStream OpenAlone(string path) => new(path, Options(FileMode.OpenOrCreate, FileShare.None));

    private static FileStreamOptions Options(FileMode mode, FileShare share)
    {
        var options = new FileStreamOptions
        {
            Mode = mode,
            Access = FileAccess.ReadWrite,
            Share = share,
            BufferSize = 0,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        return options;
    }
}
