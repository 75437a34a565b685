using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Keys.Files;

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
        using var reader = JournalReader.Settled(RealDisk.Instance, Folder(dataFolder));
        return
        [
            .. reader
                .ReadAll()
                .Where(record => record.Class == RecordClass.Entry)
                .Select(record => new SequencedEntry(
                    new JournalSequence(record.Sequence),
                    EntryCodec.Decode(record.Payload.Span)
                )),
        ];
    }
}
