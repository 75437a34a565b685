using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Keys.Files;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Scenarios;

/// <summary>Reads a journal that nobody writes at the moment.</summary>
public static class JournalText
{
    /// <summary>The journal of a data folder, with the keys of the key file in it, if there is one.</summary>
    /// <param name="dataFolder">The data folder.</param>
    public static JournalFolder Folder(string dataFolder)
    {
        var file = MasterKeyFile.Own(Path.Combine(dataFolder, "keys", "master.json"));
        return new JournalFolder(dataFolder) { Keys = file.Exists ? file.Read() : null };
    }

    /// <summary>All entries, in order.</summary>
    /// <param name="dataFolder">The data folder.</param>
    public static IReadOnlyList<SequencedEntry> ReadAll(string dataFolder)
    {
        var folder = Folder(dataFolder);
        using var keys = SubjectKeyStore.Exists(RealDisk.Instance, dataFolder)
            ? SubjectKeyStore.Open(RealDisk.Instance, dataFolder, folder.Keys)
            : null;
        using var reader = JournalReader.Settled(RealDisk.Instance, folder);
        return
        [
            .. reader
                .ReadAll()
                .Where(record => record.Class == RecordClass.Entry)
                .Select(record => new SequencedEntry(
                    new JournalSequence(record.Sequence),
                    Read(record.Payload.Span, keys)
                )),
        ];
    }

    private static JournalEntry Read(ReadOnlySpan<byte> payload, SubjectKeyStore? keys) =>
        EntryCodec.TryDecode(payload, keys ?? (ISubjectKeys)NoSubjectKeys.Instance, out var read, out var refusal)
            ? read!.Entry
            : throw new EntryRefusedException(refusal!);
}
