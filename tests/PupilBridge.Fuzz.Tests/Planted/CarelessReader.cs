using System.Buffers.Binary;
using PupilBridge.Fuzz.Journal;
using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>A reader that goes from length to length and skips one check, the checksum; the verifier beside it is the product's.</summary>
internal sealed class CarelessReader : IJournalUnderTest
{
    private readonly ProductJournal sound = new();

    public IEnumerable<JournalRecord> Read(IJournalDisk disk)
    {
        var sequence = 0L;
        foreach (var name in disk.List("").Order(StringComparer.Ordinal))
        {
            var file = disk.Open(name, JournalFileMode.Read);
            var bytes = new byte[file.Length];
            file.Read(bytes, 0);
            for (
                var at = 256;
                at < bytes.Length && ReferenceRecord.LengthAt(bytes.AsSpan(at)) is > 0 and var length;
                at += length
            )
            {
                if (BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(at + 8)) != sequence + 1)
                    yield break;
                var kind = (RecordClass)BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at + 4));
                yield return new JournalRecord(
                    ++sequence,
                    kind,
                    bytes.AsMemory(at + 56, length - 60),
                    AfterDamage: false
                );
            }
        }
    }

    public VerifyReport Verify(IJournalDisk disk, JournalPosition? head) => sound.Verify(disk, head);
}
