using System.Buffers.Binary;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>Makes of an encrypted journal what a version of the program wrote that left no word when encryption was switched off.</summary>
internal static class OlderVersion
{
    /// <summary>Takes out of every header what that version did not write there, and seals all records anew under the same keys.</summary>
    public static void Rewrite(FaultyDisk disk)
    {
        ChainHash chain = default;
        foreach (SegmentFile segment in SegmentChain.Load(disk, MemoryJournal.Folder).Segments)
        {
            byte[] bytes = disk.Content(segment.Path);
            bytes.AsSpan(140, 36).Clear();
            chain.Write(bytes.AsSpan(48));
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(252), Crc32C.Of(bytes.AsSpan(0, 252)));
            chain = ChainHash.Of(bytes.AsSpan(0, SegmentHeader.ByteCount));
            using SegmentCipher opens = SegmentKeyStore.Open(disk, MemoryJournal.Folder, segment)!;
            using SegmentCipher seals = SegmentKeyStore.Open(disk, MemoryJournal.Folder, segment)!;
            for (int at = SegmentHeader.ByteCount; at < bytes.Length; )
            {
                Span<byte> record = bytes.AsSpan(at, RecordLayout.RecordBytes(bytes.AsSpan(at)));
                byte[] payload = opens.Open(record)!;
                chain.Write(record[RecordLayout.PreviousAt..]);
                seals.Seal(record, payload);
                BinaryPrimitives.WriteUInt32LittleEndian(record[^4..], Crc32C.Of(record[..^4]));
                chain = ChainHash.Of(record);
                at += record.Length;
            }
            disk.Edit(
                segment.Path,
                old =>
                {
                    old.Clear();
                    old.AddRange(bytes);
                }
            );
        }
    }
}
