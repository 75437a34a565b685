using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Recovery;

public sealed class SetAsideTests
{
    [Fact]
    public void The_copy_is_whole_on_the_disk_before_the_tail_is_cut_off_wherever_the_power_goes()
    {
        int cutOff = 0;
        for (int seed = 1; seed <= 200; seed++)
        {
            FaultyDisk disk = MemoryJournal.Small().Clone(seed);
            byte[] tail = [.. Enumerable.Range(1, 700 + seed).Select(i => (byte)i)];
            disk.Edit(MemoryJournal.Segment(2), bytes => bytes.AddRange(tail));
            int offset = disk.Content(MemoryJournal.Segment(2)).Length - tail.Length;
            disk.FailAt = disk.Operations + 1 + (seed % 12);
            disk.FailFor = int.MaxValue / 2;
            try
            {
                MemoryJournal.Open(disk).Dispose();
            }
            catch (JournalException)
            {
                // It failed while mending; the power goes then.
            }
            disk.FailAt = 0;
            disk.LosePower();
            if (disk.Content(MemoryJournal.Segment(2)).AsSpan(offset).SequenceEqual(tail))
                continue;
            cutOff++;
            Assert.Equal(tail, disk.Content(MemoryJournal.Folder.InSegments(SegmentName.SetAside(2, offset))));
        }
        Assert.InRange(cutOff, 20, 180);
    }

    [Fact]
    public void Files_that_were_never_finished_are_deleted_at_the_next_start()
    {
        FaultyDisk disk = MemoryJournal.Small();
        string unfinished = MemoryJournal.Segment(3) + SegmentName.Unfinished;
        string copy = MemoryJournal.Folder.InSegments(SegmentName.SetAside(2, 300)) + SegmentName.Unfinished;
        foreach (string path in new[] { unfinished, copy })
            disk.Open(path, JournalFileMode.CreateNew).Dispose();
        Assert.Equal(2, MemoryJournal.Verify(disk).Problems.Count);
        MemoryJournal.Open(disk).Dispose();
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
        Assert.Equal(3, disk.List(MemoryJournal.Folder.Segments).Count);
    }
}
