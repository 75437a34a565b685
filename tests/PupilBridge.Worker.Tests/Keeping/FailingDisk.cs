using PupilBridge.Journal;

namespace PupilBridge.Worker.Tests.Keeping;

/// <summary>The real disk, which at the test's word is full (writes fail) or bad (syncs fail).</summary>
internal sealed class FailingDisk : IJournalDisk
{
    private readonly RealDisk disk = new();
    private int failures;

    /// <summary>Set: nothing can be written.</summary>
    public volatile bool IsFull;

    /// <summary>Set: nothing becomes durable.</summary>
    public volatile bool IsBad;

    /// <summary>How many calls have failed.</summary>
    public int Failures => Volatile.Read(ref failures);

    public Guid BootId => disk.BootId;

    public void CreateFolder(string folder) => disk.CreateFolder(folder);

    public IReadOnlyList<string> List(string folder) => disk.List(folder);

    public IJournalFile Open(string path, JournalFileMode mode)
    {
        if (mode == JournalFileMode.CreateNew)
            ThrowIfFull();
        return new FailingFile(this, disk.Open(path, mode));
    }

    public void Rename(string path, string newPath) => disk.Rename(path, newPath);

    public void Delete(string path) => disk.Delete(path);

    public void SyncFolder(string folder) => disk.SyncFolder(folder);

    public long FreeBytes(string folder) => IsFull ? 0 : disk.FreeBytes(folder);

    public IDisposable Lock(JournalFolder folder) => disk.Lock(folder);

    public bool IsLocked(JournalFolder folder) => disk.IsLocked(folder);

    private void ThrowIfFull()
    {
        if (!IsFull)
            return;
        Interlocked.Increment(ref failures);
        throw new DiskFullException("No space left on device.");
    }

    private sealed class FailingFile(FailingDisk disk, IJournalFile file) : IJournalFile
    {
        public long Length => file.Length;

        public int Read(Span<byte> buffer, long offset) => file.Read(buffer, offset);

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            disk.ThrowIfFull();
            file.Write(bytes, offset);
        }

        public void Sync()
        {
            if (disk.IsBad)
            {
                Interlocked.Increment(ref disk.failures);
                throw new IOException("Input/output error.");
            }

            file.Sync();
        }

        public void SetLength(long length) => file.SetLength(length);

        public void Dispose() => file.Dispose();
    }
}
