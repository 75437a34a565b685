using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Reading;

public sealed class RecordFinderTests
{
    [Theory]
    [InlineData(0, 64 << 20)]
    [InlineData(4096, 64 << 20)]
    [InlineData(0, 400)]
    [InlineData(4096, 400)]
    public void Each_record_is_found_by_its_sequence_in_one_segment_or_many(int preallocate, long segmentBytes)
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(preallocate, segmentBytes)))
        {
            for (int i = 1; i <= 60; i++)
                MemoryJournal.Append(writer, i, i);
            AssertLikeTheWalk(disk, 60);
        }

        Assert.Null(JournalReader.Find(disk, MemoryJournal.Folder, 61, 1000));
    }

    [Fact]
    public void What_is_not_durable_or_no_sequence_is_not_found()
    {
        FaultyDisk disk = MemoryJournal.Small();

        Assert.Null(JournalReader.Find(disk, MemoryJournal.Folder, 6, durable: 5));
        Assert.NotNull(JournalReader.Find(disk, MemoryJournal.Folder, 5, durable: 5));
        Assert.Null(JournalReader.Find(disk, MemoryJournal.Folder, 0, durable: 5));
        Assert.Null(JournalReader.Find(new FaultyDisk(1), MemoryJournal.Folder, 1, durable: 5));
        Assert.Equal(RecordClass.CleanStop, JournalReader.Find(disk, MemoryJournal.Folder, 7, durable: 10)!.Class);
    }

    /// <summary>Wherever a byte is altered, the quick way finds what the walk through the whole chain finds, and nothing false.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Behind_any_altered_byte_it_finds_what_the_walk_finds(int segment)
    {
        int length = 0;
        MemoryJournal.Small().Edit(MemoryJournal.Segment(segment), bytes => length = bytes.Count);
        for (int at = SegmentHeader.ByteCount; at < length; at += 3)
        {
            FaultyDisk disk = MemoryJournal.Small();
            int place = at;
            disk.Edit(MemoryJournal.Segment(segment), bytes => bytes[place] ^= 0x40);
            AssertLikeTheWalk(disk, 10);
        }
    }

    private static void AssertLikeTheWalk(FaultyDisk disk, long last)
    {
        Dictionary<long, JournalRecord> walked = MemoryJournal.ReadAll(disk).ToDictionary(r => r.Sequence);
        for (long sequence = 1; sequence <= last; sequence++)
        {
            JournalRecord? found = JournalReader.Find(disk, MemoryJournal.Folder, sequence, last);
            JournalRecord? expected = walked.GetValueOrDefault(sequence);
            Assert.Equal(expected is null, found is null);
            if (found is null)
                continue;
            Assert.Equal((expected!.Sequence, expected.Class), (found.Sequence, found.Class));
            Assert.Equal(expected.Payload.ToArray(), found.Payload.ToArray());
            MemoryJournal.AssertNothingFalse([found], last);
        }
    }
}
