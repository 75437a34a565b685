using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// The points of a data folder: <c>resume</c> in it, as a rule one file, named by its entry. All may be deleted; they follow from the
/// journal.
/// </summary>
internal sealed class ResumeFolder(IJournalDisk disk, string dataFolder, KeyRing? keys, bool encrypt)
{
    private const string End = ".point";
    private const string Unfinished = ".new";
    private readonly string folder = Path.Combine(dataFolder, "resume");

    /// <summary>The points that lie there and are sound, the newest first.</summary>
    public IEnumerable<ResumePoint> Load() =>
        disk.List(folder)
            .Where(name => name.EndsWith(End, StringComparison.Ordinal))
            .OrderDescending(StringComparer.Ordinal)
            .Select(name => Read(Path.Combine(folder, name)))
            .OfType<ResumePoint>();

    /// <summary>Makes a point durable, and deletes those before.</summary>
    /// <exception cref="IOException">It could not be written; the one before still stands.</exception>
    public void Save(ResumePoint point)
    {
        disk.CreateFolder(folder);
        var name = point.Position.Sequence.ToString("D19", CultureInfo.InvariantCulture) + End;
        var path = Path.Combine(folder, name);
        disk.Delete(path + Unfinished);
        using (var file = disk.Open(path + Unfinished, JournalFileMode.CreateNew))
        {
            file.Write(ResumePointBytes.Write(point, encrypt ? keys : null), 0);
            file.Sync();
        }

        disk.Delete(path);
        disk.Rename(path + Unfinished, path);
        disk.SyncFolder(folder);
        DeleteAllBut(name);
    }

    /// <summary>Deletes all points, and what was left half written.</summary>
    /// <exception cref="IOException">One could not be deleted.</exception>
    public void Clear()
    {
        DeleteAllBut(null);
        if (disk.List(folder).Count > 0)
            throw new IOException($"What lies in {folder} could not be deleted.");
    }

    private void DeleteAllBut(string? kept)
    {
        var others = disk.List(folder).Where(name => name != kept).ToArray();
        foreach (var name in others)
            disk.Delete(Path.Combine(folder, name));
        if (others.Length > 0)
            disk.SyncFolder(folder);
    }

    private ResumePoint? Read(string path)
    {
        try
        {
            using var file = disk.Open(path, JournalFileMode.Read);
            var bytes = new byte[file.Length];
            return file.Read(bytes, 0) == bytes.Length ? ResumePointBytes.TryRead(bytes, keys) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What cannot be read is as good as missing: it follows from the journal.
            return null;
        }
    }
}
