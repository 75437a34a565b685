namespace PupilBridge.Journal.Tests.Faults;

/// <summary>The disk spoilt a record that was durable, and the clinic has to go on.</summary>
public sealed class DamagedMiddleTests
{
    [Fact]
    public void The_file_stays_as_it_is_the_rest_is_read_and_the_journal_says_what_is_missing()
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = MemoryJournal.Open(disk))
        {
            for (int i = 1; i <= 9; i++)
                MemoryJournal.Append(writer, i, i);
        }
        string path = MemoryJournal.Segment(1);
        int record = (disk.Content(path).Length - SegmentHeader.ByteCount) / 9;
        disk.Rot(path, SegmentHeader.ByteCount + 3 * record + 60, 0x08);
        byte[] spoilt = disk.Content(path);

        using (JournalWriter writer = MemoryJournal.Open(disk))
        {
            JournalProblem problem = Assert.Single(writer.Start.Problems);
            Assert.Equal(ProblemKind.DamagedRecords, problem.Kind);
            Assert.Equal((4, 4), (problem.FirstSequence, problem.LastSequence));
            Assert.Equal(SegmentHeader.ByteCount + 3 * record, problem.Offset);
            Assert.Equal(11, writer.Append("after"u8));
            Assert.True(writer.Commit().IsDurable);
        }

        Assert.Equal(spoilt, disk.Content(path));
        List<JournalRecord> records = MemoryJournal.ReadAll(disk);
        Assert.Equal([1, 2, 3, 5, 6, 7, 8, 9, 10, 11], records.Select(r => r.Sequence));
        Assert.Equal([5, 6, 7, 8, 9], records.Where(r => r.AfterDamage).Select(r => r.Sequence));
        JournalNotice? notice = JournalNotice.TryDecode(records[8].Payload.Span);
        Assert.Equal(ProblemKind.DamagedRecords, notice?.Kind);
        Assert.Equal((4, 4), (notice?.FirstSequence, notice?.LastSequence));
        for (int i = 0; i < 3; i++)
        {
            MemoryJournal.Open(disk).Dispose();
            JournalProblem problem = Assert.Single(MemoryJournal.Verify(disk).Problems);
            Assert.Equal((4, SegmentName.Of(1)), (problem.FirstSequence, problem.File));
        }
    }

    [Fact]
    public void Damage_in_the_middle_of_a_large_segment_is_found_behind_any_garbage()
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = MemoryJournal.Open(disk))
        {
            for (int i = 1; i <= 300; i++)
                MemoryJournal.Append(writer, i, i);
        }
        var chance = new Random(5);
        string path = MemoryJournal.Segment(1);
        disk.Edit(
            path,
            bytes =>
            {
                for (int i = 5000; i < 9000; i++)
                    bytes[i] = (byte)chance.Next(256);
            }
        );
        List<long> read = MemoryJournal.EntrySequences(disk);
        JournalProblem problem = Assert.Single(MemoryJournal.Verify(disk).Problems);
        Assert.Equal(300 - (problem.LastSequence - problem.FirstSequence + 1), read.Count);
        Assert.InRange(read.Count, 240, 260);
        MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk), 300);
    }

    /// <summary>The records right behind the bad place are of the same write; only the write after that vouches for it.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Damage_in_a_batch_is_told_from_a_torn_tail_by_any_later_commit(int spoilt)
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = MemoryJournal.Open(disk))
        {
            MemoryJournal.Append(writer, 1, 1);
            MemoryJournal.Append(writer, 2, 5);
            MemoryJournal.Append(writer, 6, 6);
        }
        string path = MemoryJournal.Segment(1);
        int record = (disk.Content(path).Length - SegmentHeader.ByteCount) / 6;
        disk.Rot(path, SegmentHeader.ByteCount + ((spoilt - 1) * record) + 60, 0x08);

        JournalProblem problem = Assert.Single(MemoryJournal.Verify(disk).Problems);
        Assert.Equal(ProblemKind.DamagedRecords, problem.Kind);
        Assert.Equal((spoilt, spoilt), (problem.FirstSequence, problem.LastSequence));
        Assert.Equal(5, MemoryJournal.EntrySequences(disk).Count);
        using JournalWriter next = MemoryJournal.Open(disk);
        Assert.Equal(8, next.Append("after"u8));
    }
}
