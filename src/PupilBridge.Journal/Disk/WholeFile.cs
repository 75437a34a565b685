namespace PupilBridge.Journal;

/// <summary>Small files that are read and written as a whole on an <see cref="IJournalDisk"/>.</summary>
public static class WholeFile
{
    /// <summary>The end of the name under which a file is written before it has its own; what bears it may be deleted.</summary>
    public const string Unfinished = ".new";

    /// <summary>Reads a file.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It is not there, cannot be read, or was shortened meanwhile.</exception>
    public static byte[] Read(IJournalDisk disk, string path)
    {
        ArgumentNullException.ThrowIfNull(disk);
        using IJournalFile file = disk.Open(path, JournalFileMode.Read);
        byte[] bytes = new byte[file.Length];
        return file.Read(bytes, 0) == bytes.Length ? bytes : throw new IOException($"{path} was shortened meanwhile.");
    }

    /// <summary>Writes a file beside, makes it durable, and gives it its name. When it returns, content and name are on the disk.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="path">The file; what bears the name is replaced, and is gone if the process dies just then.</param>
    /// <param name="content">All of it.</param>
    /// <exception cref="IOException">It could not be written.</exception>
    public static void Write(IJournalDisk disk, string path, ReadOnlySpan<byte> content)
    {
        ArgumentNullException.ThrowIfNull(disk);
        string beside = path + Unfinished;
        disk.Delete(beside);
        using (IJournalFile file = disk.Open(beside, JournalFileMode.CreateNew))
        {
            file.Write(content, 0);
            file.Sync();
        }
        disk.Delete(path);
        disk.Rename(beside, path);
        disk.SyncFolder(Path.GetDirectoryName(path)!);
    }
}
