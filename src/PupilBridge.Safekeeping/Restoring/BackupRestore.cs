using PupilBridge.Journal;
using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;

namespace PupilBridge.Safekeeping.Restoring;

/// <summary>What is to be restored, and where to.</summary>
public sealed record RestoreWish
{
    /// <summary>The destination of the backups.</summary>
    public required BackupPlace Place { get; init; }

    /// <summary>Which backup; null for the latest.</summary>
    public int? Number { get; init; }

    /// <summary>What opens its pieces.</summary>
    public required Envelope Envelope { get; init; }

    /// <summary>Full path of the new data folder: it is not there, or empty.</summary>
    public required string DataFolder { get; init; }

    /// <summary>Heads that were kept elsewhere; the restored journal must lead through them.</summary>
    public IReadOnlyList<JournalPosition> Heads { get; init; } = [];

    /// <summary>Files of the data folder that later backups of the same journal are asked for, where something was ordered since.</summary>
    public IReadOnlyCollection<string> OrderedSince { get; init; } = [];

    /// <summary>Makes the restored folder ready, while it has not its name yet.</summary>
    public Action<JournalFolder, LaterOrders> MakeReady { get; init; } = (_, _) => { };
}

/// <summary>A data folder that was restored.</summary>
/// <param name="Catalogue">The backup that it was made of.</param>
/// <param name="Report">What verifying its journal showed.</param>
/// <param name="Files">The files besides the journal.</param>
/// <param name="Later">What later backups of the same journal say.</param>
public sealed record Restored(Catalogue Catalogue, VerifyReport Report, IReadOnlyList<string> Files, LaterOrders Later);

/// <summary>
/// Makes a data folder of a backup. It is made beside, under another name, checked as a whole, and given its name at the very end: what
/// has the name is whole.
/// </summary>
public static class BackupRestore
{
    private const string Beside = ".restoring";
    private const string MarkOfUnfinished = ".restoring.txt";

    /// <summary>Restores.</summary>
    /// <exception cref="BackupException">The backup is not whole, cannot be opened, or the folder is not free; nothing was restored.</exception>
    public static Restored Run(RestoreWish wish, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(wish);
        var catalogue = wish.Place.Find(wish.Number);
        RefuseUsed(wish.DataFolder);
        BackupMark.Prove(wish.Place, wish.Envelope);
        var (beside, mark) = (wish.DataFolder + Beside, wish.DataFolder + MarkOfUnfinished);
        try
        {
            Begin(beside, mark);
            var restored = Fill(wish, catalogue, new JournalFolder(beside), cancel);
            wish.MakeReady(new JournalFolder(beside), restored.Later);
            Finish(beside, wish.DataFolder);
            File.Delete(mark);
            return restored;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            throw new BackupException(
                BackupTrouble.Storage,
                $"The backup could not be restored to {wish.DataFolder}: {fault.Message}",
                $"See to room and permissions there, and run the command again. Nothing was restored; {beside} can be deleted.",
                fault
            );
        }
    }

    private static void RefuseUsed(string folder)
    {
        if (File.Exists(folder) || (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()))
        {
            throw new BackupException(
                BackupTrouble.Refused,
                $"{folder} is not empty; nothing is ever restored over other data.",
                "Name a folder with --data that is empty or not there yet. If it is that of the clinic, stop the service and move it aside first."
            );
        }
    }

    /// <summary>
    /// The mark lies beside the folder and not in it: it stands until the folder has its name, so that whenever this is killed, the next
    /// one knows whose folder it is.
    /// </summary>
    private static void Begin(string beside, string mark)
    {
        if (Directory.Exists(beside) && !File.Exists(mark))
        {
            throw new BackupException(
                BackupTrouble.Refused,
                $"{beside} is there and no restoring of a backup made it.",
                "Move it away, or restore to a folder of another name."
            );
        }

        if (Path.GetDirectoryName(beside) is { } above)
        {
            PrivateFile.MakeFolder(above);
        }

        PrivateFile.Replace(
            mark,
            "A backup is being restored, or was interrupted. The folder .restoring beside this is not whole; both may be deleted.\n"u8
        );
        if (Directory.Exists(beside))
        {
            Directory.Delete(beside, recursive: true);
        }

        PrivateFile.MakeFolder(beside);
    }

    private static Restored Fill(RestoreWish wish, Catalogue catalogue, JournalFolder folder, CancellationToken cancel)
    {
        var store = new PieceStore(wish.Place, wish.Envelope);
        PrivateFile.MakeFolder(folder.Segments);
        foreach (var segment in catalogue.Segments)
        {
            using var file = PrivateFile.Make(folder.InSegments(JournalSegment.NameOf(segment.Number)));
            BackupCheck.Segment(store, segment, file, cancel);
            file.Flush(flushToDisk: true);
        }

        BackupCheck.Links(store, catalogue);
        var files = store.Read(catalogue.Files, from => HouseFiles.Unpack(from, folder.DataFolder), cancel);
        var later = LaterBackups.Ask(wish.Place, store, catalogue, wish.OrderedSince, cancel);
        return new Restored(catalogue, Verify(wish, catalogue, folder), files, later);
    }

    private static VerifyReport Verify(RestoreWish wish, Catalogue catalogue, JournalFolder folder)
    {
        var isDamaged = catalogue.Segments.Any(segment => segment.Damage is not null);
        var report = JournalVerifier.Verify(
            RealDisk.Instance,
            folder,
            isDamaged ? wish.Heads : [.. wish.Heads, catalogue.Head]
        );
        // A segment that stands in the clear unannounced did so in the house as well: the backup is true to it, and the report says it again.
        var broken = report.Problems.FirstOrDefault(p =>
            p is { Severity: ProblemSeverity.Damage, Kind: not ProblemKind.ClearUnannounced }
        );
        if (broken is not null && !isDamaged)
        {
            throw new BackupException(
                BackupTrouble.Damaged,
                $"The journal of backup {catalogue.Number} does not pass: {broken}",
                "Nothing was restored. Use another backup ('pupilbridge backup list'), or another copy of the destination."
            );
        }

        return report;
    }

    private static void Finish(string beside, string folder)
    {
        if (Directory.Exists(folder))
        {
            // Only an empty folder can be deleted in this way; somebody may have begun to use it.
            Directory.Delete(folder);
        }

        foreach (var below in Directory.EnumerateDirectories(beside, "*", SearchOption.AllDirectories).Append(beside))
        {
            RealDisk.Instance.SyncFolder(below);
        }

        Directory.Move(beside, folder);
        RealDisk.Instance.SyncFolder(Path.GetDirectoryName(folder)!);
    }
}
