namespace PupilBridge.Journal;

/// <summary>The operating system's file system. Stateless; safe from any thread.</summary>
public sealed class RealDisk : IJournalDisk
{
    private const string BootIdFile = "/proc/sys/kernel/random/boot_id";

    /// <summary>The one instance that is needed.</summary>
    public static RealDisk Instance { get; } = new();

    /// <inheritdoc/>
    public Guid BootId { get; } = ReadBootId();

    /// <inheritdoc/>
    public void CreateFolder(string folder)
    {
        if (Directory.Exists(folder))
            return;
        string? parent = Path.GetDirectoryName(Path.GetFullPath(folder));
        if (parent is not null)
            CreateFolder(parent);
        Directory.CreateDirectory(folder);
        if (parent is not null)
            SyncFolder(parent);
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> List(string folder) =>
        Directory.Exists(folder)
            ? [.. Directory.EnumerateFiles(folder).Select(p => Path.GetFileName(p)).Order(StringComparer.Ordinal)]
            : [];

    /// <inheritdoc/>
    public IJournalFile Open(string path, JournalFileMode mode)
    {
        (FileMode how, FileAccess access) = mode switch
        {
            JournalFileMode.CreateNew => (FileMode.CreateNew, FileAccess.ReadWrite),
            JournalFileMode.ReadWrite => (FileMode.Open, FileAccess.ReadWrite),
            _ => (FileMode.Open, FileAccess.Read),
        };
        // Read, write and delete are shared: the lock file guards the folder, and verify reads beside a running writer.
        return new RealFile(File.OpenHandle(path, how, access, FileShare.ReadWrite | FileShare.Delete), path);
    }

    /// <inheritdoc/>
    public void Rename(string path, string newPath) => File.Move(path, newPath, overwrite: false);

    /// <inheritdoc/>
    public void Delete(string path) => File.Delete(path);

    /// <inheritdoc/>
    public void SyncFolder(string folder)
    {
        // Windows has no call for it: NTFS keeps its names in a log of its own.
        if (!OperatingSystem.IsWindows())
            UnixCalls.SyncFolder(folder);
    }

    /// <inheritdoc/>
    public long FreeBytes(string folder) => new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;

    /// <inheritdoc/>
    public IDisposable Lock(JournalFolder folder) => FolderLock.Take(folder);

    /// <inheritdoc/>
    public bool IsLocked(JournalFolder folder) => FolderLock.IsHeld(folder);

    /// <summary>Whether an error number or HRESULT says that a disk or quota is full.</summary>
    internal static bool IsFull(int error) =>
        OperatingSystem.IsWindows()
            ? unchecked((uint)error) is 0x80070070 or 0x80070027
            : error is 28 || error == (OperatingSystem.IsMacOS() ? 69 : 122);

    private static Guid ReadBootId()
    {
        try
        {
            return File.Exists(BootIdFile) && Guid.TryParse(File.ReadAllText(BootIdFile).Trim(), out Guid id)
                ? id
                : Guid.Empty;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Then every unclean stop counts as a power loss, which is the safe side.
            return Guid.Empty;
        }
    }
}
