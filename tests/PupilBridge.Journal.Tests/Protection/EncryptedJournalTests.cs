using System.Buffers.Binary;
using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>What an encrypted journal gives back, and what it does not give away.</summary>
public sealed class EncryptedJournalTests
{
    [Fact]
    public void It_reads_as_it_was_written()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        List<JournalRecord> records = MemoryJournal.ReadAll(disk);
        Assert.Equal(10, records.Count);
        MemoryJournal.AssertNothingFalse(records);
        for (long sequence = 1; sequence <= 10; sequence++)
        {
            JournalRecord? found = JournalReader.Find(disk, MemoryJournal.Folder, sequence, durable: 10);
            Assert.Equal(records[(int)sequence - 1].Payload.ToArray(), found?.Payload.ToArray());
        }
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.Empty(report.Problems);
        Assert.Equal((10, 10), (report.EncryptedRecords, report.OpenedRecords));
    }

    [Fact]
    public void No_payload_stands_in_any_file()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        byte[] secret = Encoding.UTF8.GetBytes("of the quay");
        FaultyDisk open = MemoryJournal.Small(encrypt: false);
        Assert.Contains(Files(open), file => file.AsSpan().IndexOf(secret) >= 0);
        Assert.DoesNotContain(Files(disk), file => file.AsSpan().IndexOf(secret) >= 0);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Segments_of_either_kind_follow_each_other(bool first)
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: first);
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: !first)))
            // From encrypted ones to others a record under the key comes first, which says so.
            MemoryJournal.Append(writer, first ? 12 : 11, 15);
        MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk), upTo: 15);
        Assert.Equal(15, MemoryJournal.ReadAll(disk).Count);
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.Empty(report.Problems);
        Assert.Equal(first ? 11 : 5, report.EncryptedRecords);
    }

    [Fact]
    public void The_longest_entry_fits()
    {
        var disk = new FaultyDisk(0);
        byte[] longest = [.. Enumerable.Range(0, RecordLayout.MaxPayloadBytes).Select(n => (byte)n)];
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: true)))
        {
            writer.Append("short"u8);
            writer.Append(longest);
            Assert.True(writer.Commit().IsDurable);
        }
        Assert.Equal(longest, MemoryJournal.ReadAll(disk)[1].Payload.ToArray());
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
    }

    [Fact]
    public void The_chain_is_verified_without_any_key()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        JournalFolder keyless = MemoryJournal.Folder with { Keys = null };
        VerifyReport report = JournalVerifier.Verify(disk, keyless);
        Assert.Empty(report.Problems);
        Assert.Equal((10, 0), (report.EncryptedRecords, report.OpenedRecords));
        Assert.Contains("not opened", report.Summary, StringComparison.Ordinal);
        disk.Rot(MemoryJournal.Segment(1), SegmentHeader.ByteCount + RecordLayout.PayloadAt, 1);
        Assert.False(JournalVerifier.Verify(disk, keyless).IsSound);
    }

    [Fact]
    public void Who_can_compute_checksums_and_chain_but_has_no_key_is_found_out_by_who_has_it()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        string path = MemoryJournal.Segment(2);
        disk.Edit(path, WriteAnew);

        Assert.True(JournalVerifier.Verify(disk, MemoryJournal.Folder with { Keys = null }).IsSound);
        // The tags cover what each record says of the chain, so whoever writes one anew spoils all after it.
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.All(report.Problems, p => Assert.Equal(ProblemKind.DamagedRecords, p.Kind));
        Assert.Equal([8L, 9, 10], report.Problems.Select(p => p.FirstSequence));
        using JournalReader reader = JournalReader.Settled(disk, MemoryJournal.Folder);
        Assert.Equal(7, reader.ReadAll().Count());
        Assert.Equal([8L, 9, 10], reader.Problems.Select(p => p.FirstSequence));
        Assert.Null(JournalReader.Find(disk, MemoryJournal.Folder, 8, durable: 10));
    }

    private static IEnumerable<byte[]> Files(FaultyDisk disk) =>
        disk.List(MemoryJournal.Folder.Segments).Select(name => disk.Content(MemoryJournal.Folder.InSegments(name)));

    /// <summary>Flips a bit of the first payload and puts all checksums and chain values behind it right.</summary>
    private static void WriteAnew(List<byte> bytes)
    {
        byte[] segment = [.. bytes];
        segment[SegmentHeader.ByteCount + RecordLayout.PayloadAt] ^= 1;
        ChainHash chain = ChainHash.Of(segment.AsSpan(0, SegmentHeader.ByteCount));
        for (int at = SegmentHeader.ByteCount; at < segment.Length; )
        {
            Span<byte> record = segment.AsSpan(at, RecordLayout.RecordBytes(segment.AsSpan(at)));
            chain.Write(record[RecordLayout.PreviousAt..]);
            BinaryPrimitives.WriteUInt32LittleEndian(record[^4..], Crc32C.Of(record[..^4]));
            chain = ChainHash.Of(record);
            at += record.Length;
        }
        bytes.Clear();
        bytes.AddRange(segment);
    }
}
