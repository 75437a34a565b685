using System.Text;

namespace PupilBridge.Journal.Tests.Faults;

public sealed class DiskFullTests
{
    [Fact]
    public void A_full_disk_acknowledges_nothing_keeps_the_batch_and_goes_on_when_there_is_room()
    {
        var disk = new FaultyDisk(1);
        using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options());
        MemoryJournal.Append(writer, 1, 3);
        JournalPosition durable = writer.Durable;
        disk.Capacity = 700;
        for (int i = 4; i <= 10; i++)
            Assert.Equal(i, writer.Append(Encoding.UTF8.GetBytes(MemoryJournal.Text(i))));
        for (int i = 0; i < 5; i++)
        {
            JournalCommit outcome = writer.Commit();
            Assert.True(outcome.Trouble is { IsDiskFull: true });
            Assert.Contains("full", outcome.Trouble.Message, StringComparison.Ordinal);
            Assert.Contains("/quay", outcome.Trouble.Message, StringComparison.Ordinal);
            Assert.Equal(durable.Sequence, writer.Durable.Sequence);
        }
        disk.Capacity = long.MaxValue;

        Assert.True(writer.Commit().IsDurable);

        Assert.Equal([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], MemoryJournal.EntrySequences(disk));
        MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk));
        JournalRecord notice = MemoryJournal.ReadAll(disk)[^1];
        Assert.Contains("A write failed", JournalNotice.TryDecode(notice.Payload.Span)?.Text, StringComparison.Ordinal);
        Assert.True(MemoryJournal.Verify(disk).IsSound);
    }

    [Fact]
    public void The_journal_opens_on_a_full_disk_and_records_once_there_is_room()
    {
        FaultyDisk disk = MemoryJournal.Small();
        disk.Capacity = 0;
        using JournalWriter writer = MemoryJournal.Open(disk);
        writer.Append("a reading"u8);
        Assert.True(writer.Commit().Trouble is { IsDiskFull: true });
        disk.Capacity = long.MaxValue;
        Assert.True(writer.Commit().IsDurable);
        Assert.Equal(11, writer.Durable.Sequence);
        Assert.True(MemoryJournal.Verify(disk).IsSound);
    }

    [Fact]
    public void Want_of_room_for_zeros_ahead_is_no_failure_while_records_fit()
    {
        var disk = new FaultyDisk(1) { Capacity = 2000 };
        using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(preallocate: 1 << 20));
        int recorded = 0;
        for (; recorded < 100; recorded++)
        {
            writer.Append("a reading"u8);
            if (!writer.Commit().IsDurable)
                break;
        }
        Assert.InRange(recorded, 10, 30);
        Assert.Equal(recorded, MemoryJournal.ReadAll(disk).Count(r => r.Sequence <= writer.Durable.Sequence));
    }
}
