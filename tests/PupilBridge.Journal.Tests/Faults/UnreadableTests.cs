namespace PupilBridge.Journal.Tests.Faults;

/// <summary>The disk answers with an error where records lie.</summary>
public sealed class UnreadableTests
{
    private readonly FaultyDisk _disk = new(1);

    public UnreadableTests()
    {
        using (JournalWriter writer = MemoryJournal.Open(_disk))
        {
            for (int i = 1; i <= 200; i++)
                MemoryJournal.Append(writer, i, i);
        }
        using (JournalWriter writer = MemoryJournal.Open(_disk))
            MemoryJournal.Append(writer, 201, 210);
    }

    [Fact]
    public void A_place_in_an_earlier_segment_costs_only_what_lies_there()
    {
        _disk.UnreadableAt.Add((MemoryJournal.Segment(1), 9000));

        using (JournalWriter writer = MemoryJournal.Open(_disk))
            Assert.Equal(211, writer.Append("after"u8));

        List<JournalRecord> records = MemoryJournal.ReadAll(_disk);
        MemoryJournal.AssertNothingFalse(records, 210);
        Assert.InRange(records.Count, 210 - 60, 209);
        VerifyReport report = MemoryJournal.Verify(_disk);
        Assert.Equal([ProblemKind.DamagedRecords, ProblemKind.Unreadable], report.Problems.Select(p => p.Kind));
        Assert.Equal(8192, report.Problems[1].Offset);
        Assert.Equal(210 - records.Count, report.Problems[0].LastSequence - report.Problems[0].FirstSequence + 1);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(300)]
    public void A_place_in_the_last_segment_refuses_the_start_and_says_where(long offset)
    {
        string path = MemoryJournal.Segment(2);
        _disk.UnreadableAt.Add((path, offset));
        byte[] before = _disk.Content(path);

        JournalException refused = Assert.Throws<JournalException>(() => MemoryJournal.Open(_disk));

        Assert.Contains(path, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Check the disk", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, _disk.Content(path));
        Assert.False(_disk.IsLocked(MemoryJournal.Folder));
        Assert.Equal(2, _disk.List(MemoryJournal.Folder.Segments).Count);
        Assert.False(MemoryJournal.Verify(_disk).IsSound);
    }
}
