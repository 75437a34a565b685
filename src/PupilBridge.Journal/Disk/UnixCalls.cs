using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace PupilBridge.Journal;

/// <summary>The few calls of POSIX that the base library does not offer.</summary>
internal static partial class UnixCalls
{
    public const int LockExclusive = 2;
    public const int LockShared = 1;
    public const int LockNonBlocking = 4;
    private const int OpenReadOnly = 0;
    private const int Interrupted = 4;
    private const int WouldBlockLinux = 11;
    private const int WouldBlockMac = 35;

    /// <summary>Syncs a file's data, and of its metadata only what reading the data back needs (Linux).</summary>
    public static void SyncData(SafeFileHandle file, string path)
    {
        while (FDataSync(file) != 0)
            ThrowUnlessInterrupted("syncing", path);
    }

    /// <summary>Syncs a folder: the names in it become durable.</summary>
    public static void SyncFolder(string path)
    {
        int descriptor = Open(path, OpenReadOnly);
        if (descriptor < 0)
            throw Failure("opening for a sync", path, Marshal.GetLastPInvokeError());
        using var handle = new SafeFileHandle(descriptor, ownsHandle: true);
        while (FSync(handle) != 0)
            ThrowUnlessInterrupted("syncing the folder", path);
    }

    /// <summary>Takes an advisory lock of the whole file; false when another open file description holds one.</summary>
    public static bool TryLock(SafeFileHandle file, int operation, string path)
    {
        while (FLock(file, operation | LockNonBlocking) != 0)
        {
            int error = Marshal.GetLastPInvokeError();
            if (IsWouldBlock(error))
                return false;
            if (error != Interrupted)
                throw Failure("locking", path, error);
        }
        return true;
    }

    /// <summary>Whether an error number says that another one holds a lock.</summary>
    public static bool IsWouldBlock(int error) =>
        error == (OperatingSystem.IsMacOS() ? WouldBlockMac : WouldBlockLinux);

    private static void ThrowUnlessInterrupted(string doing, string path)
    {
        int error = Marshal.GetLastPInvokeError();
        if (error != Interrupted)
            throw Failure(doing, path, error);
    }

    private static IOException Failure(string doing, string path, int error)
    {
        string message = $"The operating system refused {doing} {path}: {Marshal.GetPInvokeErrorMessage(error)}.";
        return RealDisk.IsFull(error) ? new DiskFullException(message) : new IOException(message, error);
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fdatasync", SetLastError = true)]
    private static partial int FDataSync(SafeFileHandle file);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int FSync(SafeFileHandle file);

    [LibraryImport("libc", EntryPoint = "flock", SetLastError = true)]
    private static partial int FLock(SafeFileHandle file, int operation);
}
