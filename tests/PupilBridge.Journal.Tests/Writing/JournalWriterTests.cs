using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Writing;

public sealed class JournalWriterTests
{
    [Theory]
    [InlineData(0, 1)]
    [InlineData(0, 2)]
    [InlineData(500, 3)]
    [InlineData(8192, 4)]
    public void Thousands_of_random_batches_over_many_runs_agree_with_a_model(int preallocate, int seed)
    {
        var disk = new FaultyDisk(seed);
        var life = new Life(disk, MemoryJournal.Options(preallocate, segmentBytes: 40_000), new Random(seed));
        for (int run = 0; run < 10; run++)
        {
            Assert.True(life.Run(batches: 100, tries: 1, stop: run % 3 != 0));
            disk.EndProcess();
            life.Check();
        }
        Assert.True(life.Acknowledged > 2000);
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
    }

    [Fact]
    public void Segments_roll_before_they_grow_too_large_and_each_names_the_one_before()
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(segmentBytes: 1000)))
        {
            for (int i = 1; i <= 50; i++)
                MemoryJournal.Append(writer, i, i);
        }
        SegmentChain chain = SegmentChain.Load(disk, MemoryJournal.Folder);
        Assert.True(chain.Segments.Count > 5);
        Assert.All(chain.Segments, s => Assert.InRange(disk.Content(s.Path).Length, 257, 1000));
        Assert.All(chain.Segments.Skip(1), s => Assert.Equal(SegmentReason.Full, s.Header?.Reason));
        Assert.Equal(Enumerable.Range(1, 50).Select(i => (long)i), MemoryJournal.EntrySequences(disk));
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
    }

    [Fact]
    public void One_batch_is_one_write_and_one_sync_however_large()
    {
        var disk = new FaultyDisk(1);
        using JournalWriter writer = MemoryJournal.Open(disk);
        for (int i = 0; i < 1000; i++)
            writer.Append(new byte[100]);
        int operations = disk.Operations;
        int syncs = disk.Syncs;
        Assert.True(writer.Commit().IsDurable);
        Assert.Equal(1, disk.Syncs - syncs);
        Assert.Equal(2, disk.Operations - operations);
        Assert.Equal(1000, writer.Durable.Sequence);
    }

    [Fact]
    public void Nothing_is_written_by_appending_or_by_an_empty_commit()
    {
        var disk = new FaultyDisk(1);
        using JournalWriter writer = MemoryJournal.Open(disk);
        int operations = disk.Operations;
        Assert.True(writer.Commit().IsDurable);
        Assert.Equal(1, writer.Append("a reading"u8));
        Assert.Equal(operations, disk.Operations);
        Assert.Equal(0, writer.Durable.Sequence);
    }

    [Fact]
    public void After_a_failed_sync_the_segment_is_never_written_again()
    {
        var disk = new FaultyDisk(1);
        using JournalWriter writer = MemoryJournal.Open(disk);
        MemoryJournal.Append(writer, 1, 2);
        byte[] before = disk.Content(MemoryJournal.Segment(1));
        Assert.Equal(3, writer.Append("a reading"u8));
        disk.FailAt = disk.Operations + 2;
        Assert.False(writer.Commit().IsDurable);
        Assert.Equal(1, disk.Failed);
        Assert.Equal(4, writer.Append("another"u8));

        Assert.True(writer.Commit().IsDurable);

        Assert.Equal(before, disk.Content(MemoryJournal.Segment(1)));
        SegmentChain chain = SegmentChain.Load(disk, MemoryJournal.Folder);
        Assert.Equal(2, chain.Segments.Count);
        Assert.Equal(SegmentReason.Failure, chain.Segments[1].Header?.Reason);
        Assert.Equal(2, chain.Segments[1].Header?.Predecessor.Sequence);
        Assert.Contains(MemoryJournal.Verify(disk).Problems, p => p.Kind == ProblemKind.SetAside);
        Assert.Equal([1, 2, 3, 4], MemoryJournal.EntrySequences(disk));
    }

    [Fact]
    public void The_same_entries_make_the_same_bytes()
    {
        FaultyDisk once = MemoryJournal.Small();
        FaultyDisk twice = MemoryJournal.Small();
        int records = SegmentHeader.ByteCount;
        // The header holds the time of day, and each record the hash of what was before; payloads and order are the same.
        Assert.Equal(
            MemoryJournal
                .ReadAll(once)
                .Where(r => r.Class == RecordClass.Entry)
                .Select(r => Convert.ToHexString(r.Payload.Span)),
            MemoryJournal
                .ReadAll(twice)
                .Where(r => r.Class == RecordClass.Entry)
                .Select(r => Convert.ToHexString(r.Payload.Span))
        );
        Assert.Equal(once.Content(MemoryJournal.Segment(2)).Length, twice.Content(MemoryJournal.Segment(2)).Length);
        Assert.True(once.Content(MemoryJournal.Segment(2)).Length > records);
    }
}
