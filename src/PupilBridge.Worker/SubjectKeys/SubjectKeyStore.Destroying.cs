using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.SubjectKeys;

/// <content>Destroying keys of a restored data folder, for which no master key need be at hand.</content>
public sealed partial class SubjectKeyStore
{
    /// <summary>
    /// Destroys keys in a data folder that nobody has open, and notes that the keys have been through no erasure beyond a place of the
    /// journal, so that those which are entered from there on are looked at again. Doing it again does no harm.
    /// </summary>
    /// <param name="disk">The disk.</param>
    /// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
    /// <param name="slots">Which ones.</param>
    /// <param name="upTo">The last entry of the journal.</param>
    /// <returns>Those of the slots that were ever used here; none where there are no such keys.</returns>
    /// <exception cref="IOException">The key files cannot be written.</exception>
    internal static IReadOnlySet<KeySlot> DestroyIn(
        IJournalDisk disk,
        string dataFolder,
        IEnumerable<KeySlot> slots,
        long upTo
    )
    {
        if (!Exists(disk, dataFolder))
            return new HashSet<KeySlot>();
        var folder = Path.Combine(dataFolder, FolderName);
        using var patientFile = disk.Open(Path.Combine(folder, PatientFile), JournalFileMode.ReadWrite);
        using var textFile = disk.Open(Path.Combine(folder, TextFile), JournalFileMode.ReadWrite);
        HashSet<KeySlot> used = [];
        var bytes = new byte[SlotBytes.Length];
        foreach (var slot in slots)
        {
            var (file, offset) = slot.IsText
                ? (textFile, TextSlots.OffsetOf(slot))
                : (patientFile, PatientSlots.OffsetOf(slot));
            Array.Clear(bytes);
            if (file.Read(bytes, offset) < bytes.Length || SlotBytes.Read(bytes, slot) == SlotState.Free)
                continue;
            used.Add(slot);
            SlotBytes.WriteDestroyed(bytes, slot);
            file.Write(bytes, offset);
        }

        patientFile.Sync();
        textFile.Sync();
        if (KeyFileHead.Read(patientFile) is { } head && head.LastErasure > upTo)
            (head with { Generation = head.Generation + 1, LastErasure = upTo }).Write(patientFile);
        return used;
    }
}
