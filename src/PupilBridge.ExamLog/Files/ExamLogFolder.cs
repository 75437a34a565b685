using System.Globalization;

namespace PupilBridge.ExamLog;

/// <summary>
/// Where the exam log lies: a folder of its own inside the data folder, so that the whole of it is moved aside, or put in place
/// of another, by renaming one folder.
/// </summary>
internal sealed class ExamLogFolder
{
    private const string FolderName = "examlog";
    private const string RebuildName = "examlog.rebuild";
    private const string ReasonName = "why-moved-aside.txt";

    private ExamLogFolder(string dataFolder, string name)
    {
        DataFolder = Path.GetFullPath(dataFolder);
        Folder = Path.Combine(DataFolder, name);
    }

    /// <summary>The data folder of the bridge.</summary>
    public string DataFolder { get; }

    /// <summary>The folder of this exam log.</summary>
    public string Folder { get; }

    /// <summary>The engine's data file.</summary>
    public string DataFile => Path.Combine(Folder, "exams.db");

    /// <summary>The engine's log, whose name the engine derives from that of the data file.</summary>
    public string LogFile => Path.Combine(Folder, "exams-log.db");

    /// <summary>The exam log's own key, wrapped under a master key; only where it is encrypted.</summary>
    public string KeyFile => Path.Combine(Folder, "exams.key");

    /// <summary>How pages stand in the engine's files.</summary>
    public PageForm Pages { get; private init; } = PageForm.Plain;

    /// <summary>The mark that says whether the store was closed in good order.</summary>
    public string MarkFile => Path.Combine(Folder, "state");

    /// <summary>The same folder, with pages of another form.</summary>
    public ExamLogFolder With(PageForm pages) => new(DataFolder, Path.GetFileName(Folder)) { Pages = pages };

    /// <summary>The exam log in use.</summary>
    public static ExamLogFolder InUse(string dataFolder) => new(dataFolder, FolderName);

    /// <summary>The exam log that is being built beside the one in use.</summary>
    public static ExamLogFolder BeingBuilt(string dataFolder) => new(dataFolder, RebuildName);

    /// <summary>
    /// Finishes a swap that was cut off between its two renames, and clears away a build that was never finished.
    /// </summary>
    public static void Settle(string dataFolder)
    {
        var inUse = InUse(dataFolder);
        var built = BeingBuilt(dataFolder);
        if (!Directory.Exists(built.Folder))
        {
            return;
        }

        if (!Directory.Exists(inUse.Folder) && StateMark.IsFinishedBuild(built.MarkFile))
        {
            Directory.Move(built.Folder, inUse.Folder);
        }
        else
        {
            Directory.Delete(built.Folder, recursive: true);
        }
    }

    /// <summary>Renames the folder so that a new exam log can take its place, and writes beside the files why.</summary>
    /// <returns>The new path; null if there was nothing to move.</returns>
    public string? MoveAside(string reason, DateTimeOffset now)
    {
        if (!Directory.Exists(Folder))
        {
            return null;
        }

        var stamp = now.UtcDateTime.ToString("yyyyMMdd'T'HHmmssfff'Z'", CultureInfo.InvariantCulture);
        var target = $"{Folder}.aside-{stamp}";
        for (var n = 2; Directory.Exists(target); n++)
        {
            target = string.Create(CultureInfo.InvariantCulture, $"{Folder}.aside-{stamp}-{n}");
        }

        Directory.Move(Folder, target);
        WriteReason(target, reason, stamp);
        return target;
    }

    /// <summary>Deletes what was ever moved aside.</summary>
    /// <returns>The folders that were deleted.</returns>
    public IReadOnlyList<string> DeleteMovedAside()
    {
        if (!Directory.Exists(DataFolder))
        {
            return [];
        }

        string[] aside =
        [
            .. Directory.EnumerateDirectories(DataFolder, $"{FolderName}.aside-*").Order(StringComparer.Ordinal),
        ];
        foreach (var folder in aside)
        {
            Directory.Delete(folder, recursive: true);
        }

        return aside;
    }

    private static void WriteReason(string target, string reason, string stamp)
    {
        try
        {
            File.WriteAllText(Path.Combine(target, ReasonName), $"{stamp} {reason}\n");
        }
        catch (IOException)
        {
            // The move is what matters; on a full disk the note about it may be missing.
        }
    }
}
