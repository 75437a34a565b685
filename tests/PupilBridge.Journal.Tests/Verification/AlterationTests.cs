using System.Buffers.Binary;
using PupilBridge.Journal.Tests.Faults;
using PupilBridge.Journal.Tests.Recovery;

namespace PupilBridge.Journal.Tests.Verification;

/// <summary>Somebody who can compute checksums alters the files.</summary>
public sealed class AlterationTests
{
    private static readonly string Path1 = MemoryJournal.Segment(1);

    [Fact]
    public void A_removed_record_is_seen_wherever_it_stood()
    {
        for (int i = 0; i < 7; i++)
        {
            (FaultyDisk disk, int from, int to) = Record(i);
            disk.Edit(Path1, bytes => bytes.RemoveRange(from, to - from));
            AssertDamage(disk);
        }
    }

    [Fact]
    public void A_doubled_record_is_seen_wherever_it_stands()
    {
        for (int i = 0; i < 7; i++)
        {
            (FaultyDisk disk, int from, int to) = Record(i);
            disk.Edit(Path1, bytes => bytes.InsertRange(to, bytes.GetRange(from, to - from)));
            Assert.NotEmpty(MemoryJournal.Verify(disk).Problems);
            Assert.Equal(9, MemoryJournal.EntrySequences(disk).Count);
        }
    }

    [Fact]
    public void Two_records_in_the_wrong_order_are_seen()
    {
        for (int i = 0; i < 6; i++)
        {
            (FaultyDisk disk, int from, int to) = Record(i);
            (_, _, int end) = Record(i + 1);
            disk.Edit(
                Path1,
                bytes =>
                {
                    List<byte> first = bytes.GetRange(from, to - from);
                    bytes.RemoveRange(from, to - from);
                    bytes.InsertRange(end - (to - from), first);
                }
            );
            AssertDamage(disk);
        }
    }

    [Fact]
    public void A_record_that_was_altered_with_a_right_checksum_is_seen_by_the_chain()
    {
        for (int i = 0; i < 7; i++)
        {
            (FaultyDisk disk, int from, int to) = Record(i);
            Forge(disk, Path1, from, to, record => record[RecordLayout.PayloadAt] ^= 1);
            AssertDamage(disk);
        }
    }

    [Fact]
    public void A_header_that_was_altered_with_a_right_checksum_is_seen_by_the_chain()
    {
        FaultyDisk disk = MemoryJournal.Small();
        Forge(disk, Path1, 0, SegmentHeader.ByteCount, header => header[80] ^= 1);
        AssertDamage(disk);
    }

    [Fact]
    public void A_segment_that_is_gone_is_named()
    {
        FaultyDisk disk = MemoryJournal.Small();
        disk.Remove(Path1);
        JournalProblem problem = MemoryJournal.Verify(disk).Problems[0];
        Assert.Equal(ProblemKind.MissingSegment, problem.Kind);
        Assert.Equal(SegmentName.Of(1), problem.File);
    }

    [Fact]
    public void An_end_that_was_cut_off_cleanly_shows_only_against_a_head_kept_elsewhere()
    {
        FaultyDisk disk = MemoryJournal.Small();
        JournalPosition head = MemoryJournal.Verify(disk).Head;
        Assert.Equal(10, head.Sequence);
        Assert.Empty(MemoryJournal.Verify(disk, head).Problems);
        long[] ends = CutAtEveryByteTests.RecordEnds(disk.Content(MemoryJournal.Segment(2)));
        disk.Edit(MemoryJournal.Segment(2), bytes => bytes.RemoveRange((int)ends[1], bytes.Count - (int)ends[1]));
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
        VerifyReport report = MemoryJournal.Verify(disk, head);
        Assert.Equal(ProblemKind.OtherHead, Assert.Single(report.Problems).Kind);
        Assert.False(report.IsSound);
    }

    [Fact]
    public void A_head_from_the_past_still_proves_what_led_to_it()
    {
        FaultyDisk disk = MemoryJournal.Small();
        JournalPosition head = MemoryJournal.Verify(disk).Head;
        using (JournalWriter writer = MemoryJournal.Open(disk))
            MemoryJournal.Append(writer, 11, 12);
        Assert.Empty(MemoryJournal.Verify(disk, head).Problems);
    }

    private static void AssertDamage(FaultyDisk disk)
    {
        VerifyReport report = MemoryJournal.Verify(disk);
        Assert.False(report.IsSound);
        Assert.Contains("DAMAGED", report.Summary, StringComparison.Ordinal);
        Assert.All(report.Problems, p => Assert.False(string.IsNullOrWhiteSpace(p.Advice)));
        MemoryJournal.ReadAll(disk);
    }

    /// <summary>A fresh journal, and where its record (from 0) begins and ends in the first segment.</summary>
    private static (FaultyDisk Disk, int From, int To) Record(int index)
    {
        FaultyDisk disk = MemoryJournal.Small();
        long[] ends = CutAtEveryByteTests.RecordEnds(disk.Content(Path1));
        return (disk, index == 0 ? SegmentHeader.ByteCount : (int)ends[index - 1], (int)ends[index]);
    }

    private static void Forge(FaultyDisk disk, string path, int from, int to, Action<byte[]> change) =>
        disk.Edit(
            path,
            bytes =>
            {
                byte[] part = [.. bytes.GetRange(from, to - from)];
                change(part);
                BinaryPrimitives.WriteUInt32LittleEndian(
                    part.AsSpan(part.Length - 4),
                    Crc32C.Of(part.AsSpan(0, part.Length - 4))
                );
                bytes.RemoveRange(from, to - from);
                bytes.InsertRange(from, part);
            }
        );
}
