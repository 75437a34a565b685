using PupilBridge.Fuzz.Journal;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>
/// The product's reader with one fault: where it refuses a segment without header and key, its records are given as they stand on the disk.
/// </summary>
internal sealed class HeaderBlindReader : ISealedJournalUnderTest
{
    private readonly ProductSealedJournal sound = new();

    public IEnumerable<JournalRecord> Read(IJournalDisk disk, KeyRing? keys)
    {
        List<JournalRecord> read = [];
        try
        {
            foreach (var record in sound.Read(disk, keys))
                read.Add(record);
        }
        catch (JournalKeyException refused) when (refused.Message.StartsWith("The header of", StringComparison.Ordinal))
        {
            var last = read.Count == 0 ? 0 : read[^1].Sequence;
            var name = disk.List("").First(n => refused.Message.Contains(n, StringComparison.Ordinal));
            var file = disk.Open(name, JournalFileMode.Read);
            var bytes = new byte[file.Length];
            file.Read(bytes, 0);
            for (var at = 256; ReferenceRecord.IsSound(bytes.AsSpan(at), out var record); at += record.Bytes.Length)
            {
                if (record.Sequence <= last)
                    continue;
                last = record.Sequence;
                read.Add(new(last, (RecordClass)record.Class, record.Payload.ToArray(), AfterDamage: true));
            }
        }

        return read;
    }

    public VerifyReport Verify(IJournalDisk disk, KeyRing? keys, JournalPosition? head) =>
        sound.Verify(disk, keys, head);
}
