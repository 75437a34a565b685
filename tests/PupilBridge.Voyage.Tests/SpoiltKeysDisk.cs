using PupilBridge.Journal;
using PupilBridge.SimulatedDisk;

namespace PupilBridge.Voyage.Tests;

/// <summary>
/// The simulated disk, on which a key that is destroyed is not: either it is never overwritten, or only until the power fails, as if
/// the overwriting had not been synced.
/// </summary>
internal sealed class SpoiltKeysDisk(FaultyDisk disk, bool comesBack) : IJournalDisk
{
    private readonly Dictionary<(string Path, long Offset), byte[]> shown = [];
    private readonly bool comesBack = comesBack;
    private Guid run = disk.BootId;

    /// <summary>How many keys were not destroyed.</summary>
    public int Kept { get; private set; }

    public Guid BootId => disk.BootId;

    public void CreateFolder(string folder) => disk.CreateFolder(folder);

    public IReadOnlyList<string> List(string folder) => disk.List(folder);

    public IJournalFile Open(string path, JournalFileMode mode)
    {
        if (run != disk.BootId)
            shown.Clear();
        run = disk.BootId;
        return new Spoilt(this, disk.Open(path, mode), path);
    }

    public void Rename(string path, string newPath) => disk.Rename(path, newPath);

    public void Delete(string path) => disk.Delete(path);

    public void SyncFolder(string folder) => disk.SyncFolder(folder);

    public long FreeBytes(string folder) => disk.FreeBytes(folder);

    public IDisposable Lock(JournalFolder folder) => disk.Lock(folder);

    public bool IsLocked(JournalFolder folder) => disk.IsLocked(folder);

    private sealed class Spoilt(SpoiltKeysDisk spoilt, IJournalFile file, string path) : IJournalFile
    {
        public long Length => file.Length;

        public int Read(Span<byte> buffer, long offset)
        {
            var count = file.Read(buffer, offset);
            foreach (var ((of, at), bytes) in spoilt.shown)
            {
                if (of == path && at >= offset && at + bytes.Length <= offset + count)
                    bytes.CopyTo(buffer[(int)(at - offset)..]);
            }

            return count;
        }

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            if (!bytes.StartsWith("GONE"u8))
            {
                file.Write(bytes, offset);
                return;
            }

            spoilt.Kept++;
            if (spoilt.comesBack)
                spoilt.shown[(path, offset)] = bytes.ToArray();
        }

        public void Sync() => file.Sync();

        public void SetLength(long length) => file.SetLength(length);

        public void Dispose() => file.Dispose();
    }
}
