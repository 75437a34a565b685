using System.Globalization;
using Microsoft.Win32.SafeHandles;

namespace PupilBridge.Journal;

/// <summary>
/// The lock of a data folder, held by the kernel: it is gone when the process is, so a leftover file never locks anyone out.
/// On Unix it is <c>flock</c> (also between two writers of one process); on Windows a file that nobody else may open.
/// </summary>
internal sealed class FolderLock : IDisposable
{
    // HRESULT of ERROR_SHARING_VIOLATION (Windows).
    private const int SharingViolation = unchecked((int)0x80070020);

    // Whoever asks holds the lock for microseconds. What is held shared for longer than this many tries belongs to another program.
    private const int Tries = 10_000;
    private readonly SafeFileHandle _handle;

    private FolderLock(SafeFileHandle handle) => _handle = handle;

    public static FolderLock Take(JournalFolder folder)
    {
        // Asking whether it is held takes it shared for a moment; a start at that moment must not fail for it. Only what can not be
        // shared either is really held, and is refused at once.
        for (int attempt = 1; attempt <= Tries; attempt++)
        {
            SafeFileHandle? handle = OpenLockFile(folder, UnixCalls.LockExclusive);
            if (handle is not null)
            {
                WriteHolder(folder);
                return new FolderLock(handle);
            }
            if (IsHeld(folder))
                break;
            Thread.Yield();
        }
        throw Held(folder);
    }

    public static bool IsHeld(JournalFolder folder)
    {
        if (!File.Exists(folder.LockFile))
            return false;
        using SafeFileHandle? handle = OpenLockFile(folder, UnixCalls.LockShared);
        return handle is null;
    }

    public void Dispose() => _handle.Dispose();

    private static SafeFileHandle? OpenLockFile(JournalFolder folder, int operation)
    {
        bool windows = OperatingSystem.IsWindows();
        SafeFileHandle handle;
        try
        {
            FileShare share =
                windows && operation == UnixCalls.LockExclusive
                    ? FileShare.None
                    : FileShare.ReadWrite | FileShare.Delete;
            handle = File.OpenHandle(folder.LockFile, FileMode.OpenOrCreate, FileAccess.ReadWrite, share);
        }
        catch (IOException e) when (windows ? e.HResult == SharingViolation : UnixCalls.IsWouldBlock(e.HResult))
        {
            // On Unix the base library takes a shared flock of its own on opening, and says so when it cannot.
            return null;
        }
        if (windows || UnixCalls.TryLock(handle, operation, folder.LockFile))
            return handle;
        handle.Dispose();
        return null;
    }

    private static JournalLockedException Held(JournalFolder folder)
    {
        int? holder = ReadHolder(folder);
        string who = holder is int id ? $"process {id.ToString(CultureInfo.InvariantCulture)}" : "another process";
        return new JournalLockedException(
            $"The data folder {folder.DataFolder} is in use by {who}. Stop that service first, let this command talk to it, "
                + "or choose another data folder."
        )
        {
            Folder = folder.DataFolder,
            HolderProcessId = holder,
        };
    }

    private static void WriteHolder(JournalFolder folder)
    {
        string text = string.Create(CultureInfo.InvariantCulture, $"{Environment.ProcessId}\n");
        try
        {
            File.WriteAllText(folder.LockHolderFile, text);
        }
        catch (IOException)
        {
            // A full disk: the lock is held all the same; only its message will not name the process.
        }
    }

    private static int? ReadHolder(JournalFolder folder)
    {
        try
        {
            string text = File.ReadAllText(folder.LockHolderFile).Trim();
            return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int id) ? id : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
