using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;

namespace PupilBridge.Scenarios;

/// <summary>Reads a journal that nobody writes at the moment.</summary>
public static class JournalText
{
    /// <summary>All entries, in order.</summary>
    /// <param name="dataFolder">The data folder.</param>
    public static IReadOnlyList<SequencedEntry> ReadAll(string dataFolder)
    {
        using var reader = JournalReader.Settled(RealDisk.Instance, new JournalFolder(dataFolder));
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
