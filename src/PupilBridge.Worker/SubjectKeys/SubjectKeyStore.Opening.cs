using System.Security.Cryptography;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.SubjectKeys;

/// <content>Opening and making the files.</content>
public sealed partial class SubjectKeyStore
{
    private const string PatientFile = "patients.pbk";
    private const string TextFile = "texts.pbk";

    /// <summary>Whether a data folder has such keys.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder.</param>
    public static bool Exists(IJournalDisk disk, string dataFolder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        return disk.List(Path.Combine(dataFolder, FolderName)).Contains(PatientFile);
    }

    /// <summary>Opens the keys of a data folder.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
    /// <param name="masters">The master keys; null where there are none.</param>
    /// <exception cref="BridgeStartException">The files cannot be used; the message says what to do.</exception>
    public static SubjectKeyStore Open(IJournalDisk disk, string dataFolder, KeyRing? masters) =>
        Open(disk, dataFolder, masters, RandomNumberGenerator.Create());

    /// <summary>The same, with the source of random bytes for what is made from now on; only a simulation gives another than the system's.</summary>
    internal static SubjectKeyStore Open(
        IJournalDisk disk,
        string dataFolder,
        KeyRing? masters,
        RandomNumberGenerator random
    )
    {
        ArgumentNullException.ThrowIfNull(disk);
        var folder = Path.Combine(dataFolder, FolderName);
        IJournalFile? patientFile = null;
        try
        {
            // Whoever made them may have died, or met a fault, before their names were on disk.
            disk.SyncFolder(folder);
            disk.SyncFolder(dataFolder);
            patientFile = disk.Open(Path.Combine(folder, PatientFile), JournalFileMode.ReadWrite);
            var head =
                KeyFileHead.Read(patientFile)
                ?? throw Unusable(folder, "its head is damaged, in both places where it stands", null);
            var fileKey =
                !head.IsWrapped ? head.FileKey.ToArray()
                : masters is null
                    ? throw Unusable(folder, "they are wrapped under a master key, and none is at hand", null)
                : masters.Unwrap(head.FileKey.Span);
            return new SubjectKeyStore(
                patientFile,
                disk.Open(Path.Combine(folder, TextFile), JournalFileMode.ReadWrite),
                head,
                fileKey,
                random
            );
        }
        catch (Exception e) when (e is IOException or KeyException or UnauthorizedAccessException)
        {
            patientFile?.Dispose();
            throw Unusable(folder, e.Message, e);
        }
        catch
        {
            patientFile?.Dispose();
            throw;
        }
    }

    /// <summary>Makes the keys of a data folder that has none.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
    /// <param name="masters">The master keys; null to let the keys lie there unwrapped, so that erasing works and secrecy is the disk's.</param>
    /// <param name="sealedFrom">The first journal entry that will be sealed.</param>
    /// <exception cref="BridgeStartException">The files cannot be made.</exception>
    public static SubjectKeyStore Create(IJournalDisk disk, string dataFolder, KeyRing? masters, long sealedFrom) =>
        Create(disk, dataFolder, masters, sealedFrom, RandomNumberGenerator.Create());

    /// <summary>The same, with the source of random bytes for all that is made; only a simulation gives another than the system's.</summary>
    internal static SubjectKeyStore Create(
        IJournalDisk disk,
        string dataFolder,
        KeyRing? masters,
        long sealedFrom,
        RandomNumberGenerator random
    )
    {
        ArgumentNullException.ThrowIfNull(disk);
        var folder = Path.Combine(dataFolder, FolderName);
        try
        {
            disk.CreateFolder(folder);
            // What a start left half made holds nothing yet: the head is named last.
            foreach (
                var name in disk.List(folder)
                    .Where(name => name.EndsWith(".new", StringComparison.Ordinal) || name == TextFile)
            )
                disk.Delete(Path.Combine(folder, name));
            using (var text = disk.Open(Path.Combine(folder, TextFile), JournalFileMode.CreateNew))
                text.Sync();
            var making = Path.Combine(folder, PatientFile + ".new");
            using (var patient = disk.Open(making, JournalFileMode.CreateNew))
            {
                patient.SetLength(KeyFileHead.Length);
                var fileKey = Drawn(random, ISubjectKeys.KeyBytes);
                var first = new KeyFileHead(1, sealedFrom, 0, masters is not null, masters?.Wrap(fileKey) ?? fileKey);
                first.Write(patient);
                (first with { Generation = 2 }).Write(patient);
            }

            disk.Rename(making, Path.Combine(folder, PatientFile));
            disk.SyncFolder(folder);
            disk.SyncFolder(dataFolder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Unusable(folder, e.Message, e);
        }

        return Open(disk, dataFolder, masters, random);
    }

    /// <summary>The sound heads of a data folder's keys; none where there are no such keys.</summary>
    internal static IReadOnlyList<KeyFileHead> Heads(IJournalDisk disk, string dataFolder)
    {
        if (!Exists(disk, dataFolder))
            return [];
        using var file = disk.Open(Path.Combine(dataFolder, FolderName, PatientFile), JournalFileMode.Read);
        return KeyFileHead.Copies(file);
    }

    /// <summary>Wraps the file's key anew, under the master key that is current; no slot is touched.</summary>
    /// <param name="masters">The master keys.</param>
    /// <exception cref="KeyException">The old master key is not among them.</exception>
    public void WrapAnew(KeyRing masters)
    {
        ArgumentNullException.ThrowIfNull(masters);
        lock (gate)
        {
            var fileKey = head.IsWrapped ? masters.Unwrap(head.FileKey.Span) : head.FileKey.ToArray();
            var wrapped = masters.Wrap(fileKey);
            CryptographicOperations.ZeroMemory(fileKey);
            // Both copies, so that the old wrapping is left in neither.
            for (var copies = 0; copies < 2; copies++)
            {
                head = head with { Generation = head.Generation + 1, IsWrapped = true, FileKey = wrapped };
                head.Write(patientFile);
            }
        }
    }

    private static BridgeStartException Unusable(string folder, string why, Exception? inner)
    {
        var message =
            $"The keys of what the journal holds of patients, in {folder}, cannot be used: {why}. Readings are safe; names, remarks and "
            + "signed records cannot be read without these keys. Put the folder back from a backup, or the master key that belongs to it.";
        return new BridgeStartException(message, inner);
    }
}
