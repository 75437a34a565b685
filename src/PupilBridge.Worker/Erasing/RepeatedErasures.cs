using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Erasing;

/// <summary>
/// Erasures that were ordered after the backup of which a data folder was restored: an erased patient must not come back with it. Their
/// keys are destroyed at once; the orders are entered into the restored journal as soon as it can be written, and wait in a file until
/// then.
/// </summary>
public static partial class RepeatedErasures
{
    /// <summary>Makes a restored data folder go through the erasures that its journal does not know of.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The restored data folder, which nobody uses yet.</param>
    /// <param name="upTo">The last entry of its journal.</param>
    /// <param name="lists">The lists of erasures in later backups of the same journal, as bytes.</param>
    /// <returns>The erasures, the earliest first; they are entered when the folder is opened next.</returns>
    /// <exception cref="IOException">Something cannot be written.</exception>
    public static IReadOnlyList<ListedErasure> Prepare(
        IJournalDisk disk,
        string dataFolder,
        long upTo,
        IEnumerable<ReadOnlyMemory<byte>> lists
    )
    {
        var own = ErasureList.Read(disk, dataFolder);
        ListedErasure[] missing =
        [
            .. own.Concat(lists.SelectMany(list => ErasureList.Read(list.Span)))
                .Where(one => one.Sequence > upTo)
                .Concat(ErasureList.Read(disk, dataFolder, ErasureList.ToRepeatFileName))
                .DistinctBy(one => one.Order.Id)
                .OrderBy(one => one.Sequence),
        ];
        if (missing.Length == 0)
            return [];
        PrivateFile.Replace(Path.Combine(dataFolder, ErasureList.ToRepeatFileName), ErasureList.ToBytes(missing));
        PrivateFile.Replace(
            Path.Combine(dataFolder, ErasureList.FileName),
            ErasureList.ToBytes(own.Where(one => one.Sequence <= upTo))
        );
        SubjectKeyStore.DestroyIn(disk, dataFolder, missing.SelectMany(Slots), upTo);
        return missing;
    }

    /// <summary>Enters the erasures that wait into the journal. Done before a data folder is opened; nothing happens where none wait.</summary>
    /// <param name="parts">What the bridge is made of.</param>
    /// <exception cref="JournalLockedException">Somebody has the data folder open.</exception>
    /// <exception cref="JournalException">The journal cannot be written, or not with the keys at hand.</exception>
    /// <exception cref="BridgeStartException">The disk takes nothing.</exception>
    internal static void Enter(BridgeParts parts)
    {
        var (disk, folder) = (parts.Disk, parts.Options.DataFolder);
        // Where keys were left out of the backup they have to be put back first: what they open is destroyed then.
        if (!disk.List(folder).Contains(ErasureList.ToRepeatFileName) || !SubjectKeyStore.Exists(disk, folder))
            return;
        using (
            var writer = JournalWriter.Open(
                disk,
                new JournalOptions
                {
                    Folder = parts.Journal,
                    Encrypt = parts.Encrypt,
                    Writer = $"pupilbridge {parts.ProgramVersion}",
                    Time = parts.Time,
                }
            )
        )
        {
            var waiting = ErasureList.Read(disk, folder, ErasureList.ToRepeatFileName);
            var end = writer.Durable.Sequence;
            var used = SubjectKeyStore.DestroyIn(disk, folder, waiting.SelectMany(Slots), end);
            var known = Known(parts, end);
            foreach (var order in waiting.Select(one => one.Order).Where(order => !known.Contains(order.Id)))
            {
                var here = order with
                {
                    Patients = [.. order.Patients.Where(used.Contains)],
                    Texts = [.. order.Texts.Where(used.Contains)],
                    Exams = [.. order.Exams.Where(exam => exam.Value <= end)],
                };
                // Who first came after the backup was made is not in this journal.
                if (here.Patients.Count + here.Texts.Count + here.Exams.Count > 0)
                    Entered(parts.Logger, order.OrderedBy, writer.Append(EntryCodec.Encode(here)));
            }

            if (writer.StopCleanly() is { IsDurable: false })
            {
                throw new BridgeStartException(
                    $"The erasures that were ordered after the backup of which {folder} was restored cannot be entered into its journal: the "
                        + "disk takes nothing. Make room, and start again."
                );
            }
        }

        disk.Delete(Path.Combine(folder, ErasureList.ToRepeatFileName));
        disk.SyncFolder(folder);
    }

    private static IEnumerable<Exams.Entries.Sealing.KeySlot> Slots(ListedErasure one) =>
        one.Order.Patients.Concat(one.Order.Texts);

    /// <summary>The erasures that the journal knows already, be it that this was cut off after they were entered.</summary>
    private static HashSet<EntryId> Known(BridgeParts parts, long end)
    {
        using var reader = JournalReader.Live(parts.Disk, parts.Journal, 1, () => end);
        return
        [
            .. reader
                .ReadAll()
                .Where(record =>
                    record.Class == RecordClass.Entry
                    && EntryCodec.KindOf(record.Payload.Span) == EntryKind.PatientErased
                )
                .Select(record => EntryCodec.TryDecode(record.Payload.Span, out var entry, out _) ? entry : null)
                .OfType<PatientErased>()
                .Select(order => order.Id),
        ];
    }

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "An erasure that was ordered by {OrderedBy} after this data folder was backed up is entered again, as entry {Sequence}."
    )]
    private static partial void Entered(ILogger logger, string orderedBy, long sequence);
}
