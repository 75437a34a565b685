using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Erasing;

/// <summary>Sealed entries whose keys are not there at all.</summary>
internal static class SealedRecords
{
    /// <summary>Makes sure that nothing was ever sealed, before new keys are made that would take the place of lost ones.</summary>
    /// <exception cref="BridgeStartException">Something was.</exception>
    public static void RequireNone(JournalReader journal)
    {
        foreach (var record in journal.ReadAll())
        {
            if (
                record.Class == RecordClass.Entry
                && EntryCodec.TryDecode(record.Payload.Span, NoSubjectKeys.Instance, out var read, out _)
                && read!.Unreadable.Count > 0
            )
                throw Lost(record.Sequence);
        }
    }

    /// <summary>What to say and do where the keys are gone.</summary>
    /// <param name="sequence">An entry that is sealed.</param>
    public static BridgeStartException Lost(long sequence) =>
        new(
            $"Entry {sequence} of the journal is sealed, and the folder '{SubjectKeys.SubjectKeyStore.FolderName}' with the keys is missing "
                + "from the data folder. Readings are safe; names, remarks and signed records cannot be read without these keys. Put the "
                + "folder back from a backup."
        );
}
