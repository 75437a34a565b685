using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Fuzz.Journal;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>
/// A reader of encrypted segments that opens what is sound by its checksum and never looks at the tag: AES in counter mode, as GCM is without it
/// (NIST SP 800-38D, section 7.2). The verifier beside it is the product's.
/// </summary>
internal sealed class TagBlindReader : ISealedJournalUnderTest
{
    private readonly ProductSealedJournal sound = new();

    public IEnumerable<JournalRecord> Read(IJournalDisk disk, KeyRing? keys)
    {
        // Refusals and records in the clear are the product's.
        var product = sound.Read(disk, keys).ToList();
        var read = product.ToDictionary(record => record.Sequence);
        foreach (var name in disk.List("").Where(name => name.EndsWith(".pbj", StringComparison.Ordinal)))
        {
            var number = uint.Parse(name.AsSpan(8, 10), System.Globalization.CultureInfo.InvariantCulture);
            foreach (var record in Opened(disk.Open(name, JournalFileMode.Read), number))
                read.TryAdd(record.Sequence, record);
        }

        return read.Values.OrderBy(record => record.Sequence);
    }

    public VerifyReport Verify(IJournalDisk disk, KeyRing? keys, JournalPosition? head) =>
        sound.Verify(disk, keys, head);

    private static IEnumerable<JournalRecord> Opened(IJournalFile file, uint number)
    {
        var bytes = new byte[file.Length];
        file.Read(bytes, 0);
        using var aes = Aes.Create();
        aes.SetKey(SealedJournals.KeyOf(number));
        for (
            var at = 256;
            at < bytes.Length && ReferenceRecord.LengthAt(bytes.AsSpan(at)) is > 76 and var length;
            at += length
        )
        {
            var record = bytes.AsMemory(at, length);
            if (ReferenceRecord.IsSound(record.Span, out var whole) && bytes[120] == 1)
                yield return new JournalRecord(
                    whole.Sequence,
                    (RecordClass)whole.Class,
                    Open(aes, whole.Sequence, record.Span[56..^20]),
                    AfterDamage: false
                );
        }
    }

    private static byte[] Open(Aes aes, long sequence, ReadOnlySpan<byte> content)
    {
        var opened = content.ToArray();
        var block = new byte[16];
        BinaryPrimitives.WriteInt64LittleEndian(block.AsSpan(4), sequence);
        for (var at = 0; at < opened.Length; at += 16)
        {
            BinaryPrimitives.WriteInt32BigEndian(block.AsSpan(12), 2 + (at / 16));
            var pad = aes.EncryptEcb(block, PaddingMode.None);
            for (var i = at; i < Math.Min(at + 16, opened.Length); i++)
                opened[i] ^= pad[i - at];
        }

        return opened;
    }
}
