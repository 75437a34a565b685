using System.Formats.Tar;
using PupilBridge.Journal;
using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// The files of a data folder that a backup holds besides the journal's segments, as a tar archive (ustar, IEEE Std 1003.1). All that
/// lies in the folder is taken, except what can be made anew and what is of this machine and moment.
/// </summary>
internal static class HouseFiles
{
    /// <summary>Folders that are not taken: made from the journal, or of this machine and moment.</summary>
    private static readonly string[] OtherFolders = ["examlog", "entry-index", "resume", "access-keys", "run"];

    /// <summary>The end of an archive.</summary>
    private const int EndBytes = 1024;

    /// <summary>Locks, which cannot even be opened beside their holder: the data folder's, and that of the audit trail.</summary>
    private static readonly string[] OtherFiles =
    [
        "lock",
        "lock-holder.txt",
        "access.lock",
        "audit/lock",
        "audit/lock-holder.txt",
    ];

    /// <summary>What opens what is encrypted, or re-identifies research exports: only taken where the backup is encrypted.</summary>
    private static readonly string[] Secrets = ["keys/", "subject-keys/", "research.key"];

    /// <summary>The names of the files to take, with slashes, in order.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="withSecrets">Whether keys are taken.</param>
    /// <param name="leftOut">Told what is not taken though it matters.</param>
    public static IReadOnlyList<string> Names(string dataFolder, bool withSecrets, Action<string> leftOut)
    {
        var names = Directory
            .EnumerateFiles(dataFolder, "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(dataFolder, path).Replace('\\', '/'))
            .Where(IsHouse)
            .Order(StringComparer.Ordinal)
            .ToArray();
        var secret = withSecrets ? [] : names.Where(IsSecret).ToArray();
        foreach (var name in secret.Select(name => name.Split('/')[0]).Distinct())
        {
            leftOut($"{name} (a secret: only an encrypted backup holds it; keep it by another way)");
        }

        return [.. names.Except(secret)];
    }

    /// <summary>Writes the archive.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="names">The files.</param>
    /// <param name="to">Where it goes.</param>
    public static void Write(string dataFolder, IReadOnlyList<string> names, Stream to)
    {
        var written = 0;
        using (var archive = new TarWriter(to, TarEntryFormat.Ustar, leaveOpen: true))
        {
            foreach (var name in names)
            {
                try
                {
                    WriteOne(archive, dataFolder, name);
                    written++;
                }
                catch (Exception gone) when (gone is FileNotFoundException or DirectoryNotFoundException)
                {
                    // Replaced or deleted meanwhile by the running service; what it is now is in the next backup.
                }
            }
        }

        if (written == 0)
        {
            // The library ends only an archive that it began; an empty one is two blocks of zeros as well.
            to.Write(new byte[EndBytes]);
        }
    }

    /// <summary>Unpacks the archive into a folder.</summary>
    /// <param name="from">The archive.</param>
    /// <param name="folder">Where to; only new files are made, for the owner alone.</param>
    /// <returns>The names of the files.</returns>
    /// <exception cref="InvalidDataException">It holds something else than files below the folder.</exception>
    public static IReadOnlyList<string> Unpack(Stream from, string folder)
    {
        List<string> names = [];
        using var archive = new TarReader(from, leaveOpen: true);
        while (archive.GetNextEntry() is { } entry)
        {
            var path = Path.GetFullPath(Path.Combine(folder, entry.Name));
            var isBelow = path.StartsWith(
                Path.GetFullPath(folder) + Path.DirectorySeparatorChar,
                StringComparison.Ordinal
            );
            if (entry.EntryType != TarEntryType.RegularFile || !isBelow)
            {
                throw new InvalidDataException($"'{entry.Name}' is no file of a data folder");
            }

            PrivateFile.MakeFolder(Path.GetDirectoryName(path)!);
            using var file = PrivateFile.Make(path);
            entry.DataStream?.CopyTo(file);
            file.Flush(flushToDisk: true);
            names.Add(entry.Name);
        }

        return names;
    }

    /// <summary>Reads single files out of the archive.</summary>
    /// <param name="from">The archive.</param>
    /// <param name="wanted">Their names, with slashes.</param>
    /// <returns>The content of those that are in it.</returns>
    public static IReadOnlyList<byte[]> Pick(Stream from, IReadOnlyCollection<string> wanted)
    {
        List<byte[]> picked = [];
        using var archive = new TarReader(from, leaveOpen: true);
        while (archive.GetNextEntry() is { } entry)
        {
            if (!wanted.Contains(entry.Name))
            {
                continue;
            }

            using var content = new MemoryStream();
            entry.DataStream?.CopyTo(content);
            picked.Add(content.ToArray());
        }

        return picked;
    }

    private static void WriteOne(TarWriter archive, string dataFolder, string name)
    {
        using var file = new FileStream(
            Path.Combine(dataFolder, name),
            FileMode.Open,
            FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete
        );
        archive.WriteEntry(
            new UstarTarEntry(TarEntryType.RegularFile, name)
            {
                // Not the file's own times: the same content is the same piece.
                ModificationTime = DateTimeOffset.UnixEpoch,
                Mode = UnixFileMode.UserRead | UnixFileMode.UserWrite,
                DataStream = new SteadyStream(file),
            }
        );
    }

    private static bool IsHouse(string name)
    {
        var first = name.Split('/')[0];
        return first == "journal" && name.Contains('/', StringComparison.Ordinal)
            // Segments are pieces of their own; what lies beside them belongs to them, but for what was set aside or not finished.
            ? name.EndsWith(".key", StringComparison.Ordinal)
            : !OtherFiles.Contains(name, StringComparer.Ordinal)
                && !OtherFolders.Any(other =>
                    first == other
                    || first.StartsWith(other + ".", StringComparison.Ordinal)
                    || first.StartsWith(other + "-", StringComparison.Ordinal)
                )
                && !name.EndsWith(".new", StringComparison.Ordinal)
                && !name.EndsWith(".tmp", StringComparison.Ordinal);
    }

    private static bool IsSecret(string name) =>
        Secrets.Any(secret =>
            secret.EndsWith('/') ? name.StartsWith(secret, StringComparison.Ordinal) : name == secret
        );
}
