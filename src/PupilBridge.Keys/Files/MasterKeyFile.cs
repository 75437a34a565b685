namespace PupilBridge.Keys.Files;

/// <summary>
/// The file that holds the master keys: mode 0600 in a folder of mode 0700, written beside and renamed, so that whenever the machine
/// goes down the one or the other is there. A file that is handed over by the service manager is only read.
/// </summary>
public sealed class MasterKeyFile
{
    private const UnixFileMode Others = UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;
    private const UnixFileMode Group = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute;
    private readonly IKeyDisk disk;

    private MasterKeyFile(string path, bool isHandedOver, IKeyDisk disk)
    {
        Path = System.IO.Path.GetFullPath(path);
        IsHandedOver = isHandedOver;
        this.disk = disk;
    }

    /// <summary>The full path.</summary>
    public string Path { get; }

    /// <summary>Whether the service manager hands it over, so that others make and change it.</summary>
    public bool IsHandedOver { get; }

    /// <summary>Whether it is there.</summary>
    public bool Exists => disk.Exists(Path);

    private string Folder => System.IO.Path.GetDirectoryName(Path)!;

    private string Unfinished => Path + ".new";

    /// <summary>A file of our own.</summary>
    public static MasterKeyFile Own(string path) => new(path, false, RealKeyDisk.Instance);

    /// <summary>A file in the folder of credentials that the service manager names (systemd: <c>CREDENTIALS_DIRECTORY</c>).</summary>
    public static MasterKeyFile HandedOver(string path) => new(path, true, RealKeyDisk.Instance);

    internal static MasterKeyFile On(IKeyDisk disk, string path) => new(path, false, disk);

    /// <summary>Reads the keys.</summary>
    /// <exception cref="KeyException">The file is not there, others can read it, or it is damaged.</exception>
    public KeyRing Read()
    {
        if (!Exists)
        {
            throw new KeyException(
                $"The key file {Path} is not there. Put it back from where its copy is kept; without it what was encrypted cannot be read."
            );
        }

        try
        {
            RequirePrivate();
            return KeyFileText.Read(disk.Read(Path));
        }
        catch (KeyException e)
        {
            throw new KeyException($"The key file {Path} cannot be used. {e.Message}", e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new KeyException($"The key file {Path} cannot be read: {e.Message}", e);
        }
    }

    /// <summary>Makes the file with one new key, if it is not there yet.</summary>
    /// <returns>The keys in the file; another process may have made it at the same moment.</returns>
    /// <exception cref="KeyException">It cannot be made or read.</exception>
    public KeyRing ReadOrCreate(TimeProvider time)
    {
        if (!Exists && !IsHandedOver)
        {
            Guard(() =>
            {
                disk.CreatePrivateFolder(Folder);
                Put(KeyRing.Create(time), replace: false);
            });
        }

        return Read();
    }

    /// <summary>Writes other keys; when this returns they are durable.</summary>
    /// <exception cref="KeyException">They cannot be written; the file holds the old keys or the new ones.</exception>
    public void Replace(KeyRing keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        if (IsHandedOver)
        {
            throw new KeyException(
                $"The key file {Path} is handed over by the service manager and cannot be changed here."
            );
        }

        Guard(() => Put(keys, replace: true));
    }

    private void Put(KeyRing keys, bool replace)
    {
        disk.Delete(Unfinished);
        disk.WriteNew(Unfinished, KeyFileText.Write(keys));
        try
        {
            disk.Rename(Unfinished, Path, replace);
        }
        catch (IOException) when (!replace && disk.Exists(Path))
        {
            // Another process was first; its keys count.
            disk.Delete(Unfinished);
        }

        disk.SyncFolder(Folder);
    }

    private void Guard(Action write)
    {
        try
        {
            write();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new KeyException(
                $"The key file {Path} cannot be written: {e.Message} Check the disk and the permissions.",
                e
            );
        }
    }

    /// <summary>
    /// A credential's group bits are those of an access list that systemd sets, and its folder is systemd's own; so of such a file only
    /// what all others may do counts.
    /// </summary>
    private void RequirePrivate()
    {
        var forbidden = IsHandedOver ? Others : Others | Group;
        if (disk.ModeOf(Path) is { } file && (file & forbidden) != 0)
        {
            throw new KeyException(
                $"Others on this machine can use it. Run 'chmod 600 {Path}', and change the master key if they may have."
            );
        }

        if (
            !IsHandedOver
            && disk.ModeOf(Folder) is { } folder
            && (folder & (UnixFileMode.OtherWrite | UnixFileMode.GroupWrite)) != 0
        )
        {
            throw new KeyException($"Others on this machine can change its folder. Run 'chmod 700 {Folder}'.");
        }
    }
}
