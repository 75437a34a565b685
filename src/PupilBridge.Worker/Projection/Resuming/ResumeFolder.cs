using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// The points of a data folder: <c>resume</c> in it, as a rule one file, named by its entry. All may be deleted; they follow from the
/// journal.
/// </summary>
/// <param name="disk">The disk.</param>
/// <param name="dataFolder">The data folder.</param>
/// <param name="seal">How they are encrypted.</param>
internal sealed class ResumeFolder(IJournalDisk disk, string dataFolder, FileSeal seal)
{
    private const string End = ".point";
    private readonly string folder = Of(dataFolder);

    /// <summary>The keys of its points, for who changes the master key.</summary>
    public static IKeyHolder KeysOf(IJournalDisk disk, string dataFolder) =>
        new SealedFiles(disk, Of(dataFolder), End, "live exams");

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
        WholeFile.Write(disk, Path.Combine(folder, name), seal.Close(ResumePointBytes.Write(point)));
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
            return seal.Open(WholeFile.Read(disk, path)) is { } plain ? ResumePointBytes.TryRead(plain) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What cannot be read is as good as missing: it follows from the journal.
            return null;
        }
    }

    private static string Of(string dataFolder) => Path.Combine(dataFolder, "resume");
}
