namespace PupilBridge.Journal;

/// <summary>How a file is opened.</summary>
public enum JournalFileMode
{
    /// <summary>For reading; others may write it meanwhile.</summary>
    Read = 0,

    /// <summary>Made anew, for reading and writing; it must not exist.</summary>
    CreateNew = 1,

    /// <summary>An existing file, for reading and writing.</summary>
    ReadWrite = 2,
}

/// <summary>
/// The file system as the journal sees it. Failures are <see cref="IOException"/> (a full disk: <see cref="DiskFullException"/>)
/// or <see cref="UnauthorizedAccessException"/>; after a failure, any part of what was asked may have happened.
/// </summary>
public interface IJournalDisk
{
    /// <summary>The operating system's boot, a new value at each start of the machine; empty when it cannot be told.</summary>
    Guid BootId { get; }

    /// <summary>Makes a folder, and those above it, if missing, and makes them durable.</summary>
    void CreateFolder(string folder);

    /// <summary>The names of the files in a folder, in ordinal order; none when the folder does not exist.</summary>
    IReadOnlyList<string> List(string folder);

    /// <summary>Opens a file.</summary>
    IJournalFile Open(string path, JournalFileMode mode);

    /// <summary>Gives a file another name in the same folder; the new name must be free.</summary>
    void Rename(string path, string newPath);

    /// <summary>Deletes a file; nothing happens when there is none.</summary>
    void Delete(string path);

    /// <summary>Makes names made, changed and deleted in a folder durable.</summary>
    void SyncFolder(string folder);

    /// <summary>The bytes that can still be written there.</summary>
    long FreeBytes(string folder);

    /// <summary>Takes the exclusive lock of the data folder until disposed; it ends with the process, however that ends.</summary>
    /// <exception cref="JournalLockedException">Another process, or another writer of this one, holds it.</exception>
    IDisposable Lock(JournalFolder folder);

    /// <summary>Whether someone holds the lock of the data folder now.</summary>
    bool IsLocked(JournalFolder folder);
}

/// <summary>An open file of an <see cref="IJournalDisk"/>.</summary>
public interface IJournalFile : IDisposable
{
    /// <summary>The length in bytes.</summary>
    long Length { get; }

    /// <summary>Reads as many bytes as there are, up to the buffer's length; fewer only at the end of the file.</summary>
    int Read(Span<byte> buffer, long offset);

    /// <summary>Writes all bytes, or throws; then any part may have been written.</summary>
    void Write(ReadOnlySpan<byte> bytes, long offset);

    /// <summary>Makes what was written durable; when it throws, any part of it may be lost, whatever later syncs say.</summary>
    void Sync();

    /// <summary>Cuts the file to a length, or extends it by zeros.</summary>
    void SetLength(long length);
}

/// <summary>The disk has no room (or the user's quota is used up).</summary>
public sealed class DiskFullException : IOException
{
    /// <inheritdoc/>
    public DiskFullException() { }

    /// <inheritdoc/>
    public DiskFullException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public DiskFullException(string message, Exception innerException)
        : base(message, innerException) { }
}
