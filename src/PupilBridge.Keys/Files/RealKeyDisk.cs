using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace PupilBridge.Keys.Files;

/// <summary>The operating system's file system.</summary>
internal sealed partial class RealKeyDisk : IKeyDisk
{
    private const UnixFileMode OwnFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnFolder = OwnFile | UnixFileMode.UserExecute;
    private const int OpenReadOnly = 0;

    public static RealKeyDisk Instance { get; } = new();

    public bool Exists(string path) => File.Exists(path);

    public byte[] Read(string path) => File.ReadAllBytes(path);

    public void WriteNew(string path, ReadOnlySpan<byte> content)
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 0,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnFile;
        }

        using var stream = new FileStream(path, options);
        stream.Write(content);
        stream.Flush(flushToDisk: true);
    }

    public void Rename(string path, string newPath, bool replace) => File.Move(path, newPath, replace);

    public void Delete(string path) => File.Delete(path);

    public void CreatePrivateFolder(string folder)
    {
        if (Directory.Exists(folder))
        {
            return;
        }

        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
            return;
        }

        Directory.CreateDirectory(folder, OwnFolder);
        SyncFolder(Path.GetDirectoryName(Path.GetFullPath(folder))!);
    }

    public void SyncFolder(string folder)
    {
        // Windows has no call for it: NTFS keeps its names in a log of its own.
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var descriptor = Open(folder, OpenReadOnly);
        if (descriptor < 0)
        {
            throw Failure(folder);
        }

        using var handle = new SafeFileHandle(descriptor, ownsHandle: true);
        if (FSync(handle) != 0)
        {
            throw Failure(folder);
        }
    }

    public UnixFileMode? ModeOf(string path) => OperatingSystem.IsWindows() ? null : File.GetUnixFileMode(path);

    private static IOException Failure(string folder)
    {
        var error = Marshal.GetLastPInvokeError();
        return new IOException(
            $"The operating system refused syncing the folder {folder}: {Marshal.GetPInvokeErrorMessage(error)}.",
            error
        );
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int FSync(SafeFileHandle file);
}
