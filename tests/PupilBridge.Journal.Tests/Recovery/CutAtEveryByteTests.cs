using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Recovery;

/// <summary>The last segment of a small journal ends at every byte in turn, as a crash in mid write leaves it.</summary>
public sealed class CutAtEveryByteTests
{
    [Fact]
    public void All_whole_records_before_the_cut_survive_and_nothing_false_appears()
    {
        FaultyDisk whole = MemoryJournal.Small();
        int length = whole.Content(MemoryJournal.Segment(2)).Length;
        long[] ends = RecordEnds(whole.Content(MemoryJournal.Segment(2)));
        for (int cut = SegmentHeader.ByteCount; cut < length; cut++)
        {
            FaultyDisk disk = whole.Clone();
            disk.Edit(MemoryJournal.Segment(2), bytes => bytes.RemoveRange(cut, bytes.Count - cut));
            int kept = ends.Count(end => end <= cut);
            bool torn = cut != SegmentHeader.ByteCount && !ends.Contains(cut);

            using (JournalWriter writer = MemoryJournal.Open(disk))
            {
                Assert.Equal(7 + kept, writer.Start.Recovered.Sequence);
                Assert.False(writer.Start.LastStopWasClean);
                Assert.Equal(torn ? 1 : 0, writer.Start.Problems.Count);
                Assert.Equal(7 + kept + (torn ? 2 : 1), writer.Append("after"u8));
                Assert.True(writer.Commit().IsDurable);
            }

            List<JournalRecord> records = MemoryJournal.ReadAll(disk);
            MemoryJournal.AssertNothingFalse(records, upTo: 7 + kept);
            Assert.Equal(Enumerable.Range(1, records.Count), records.Select(r => (int)r.Sequence));
            VerifyReport report = MemoryJournal.Verify(disk);
            Assert.True(report.IsSound, string.Join('\n', report.Problems));
            Assert.Equal(torn ? [ProblemKind.SetAside] : [], report.Problems.Select(p => p.Kind));
        }
    }

    [Fact]
    public void The_bytes_of_a_torn_tail_are_set_aside_and_a_notice_says_so()
    {
        FaultyDisk disk = MemoryJournal.Small();
        byte[] before = disk.Content(MemoryJournal.Segment(2));
        disk.Edit(MemoryJournal.Segment(2), bytes => bytes.RemoveAt(bytes.Count - 1));
        long[] ends = RecordEnds(before);

        MemoryJournal.Open(disk).Dispose();

        string aside = MemoryJournal.Folder.InSegments(SegmentName.SetAside(2, ends[1]));
        Assert.Equal(before[(int)ends[1]..^1], disk.Content(aside));
        Assert.Equal(before[..(int)ends[1]], disk.Content(MemoryJournal.Segment(2)));
        JournalRecord last = MemoryJournal.ReadAll(disk)[^1];
        Assert.Equal(RecordClass.Notice, last.Class);
        JournalNotice? notice = JournalNotice.TryDecode(last.Payload.Span);
        Assert.Equal(ProblemKind.TornTail, notice?.Kind);
        Assert.Equal(SegmentName.Of(2), notice?.File);
        Assert.Equal(ends[1], notice?.Offset);
    }

    [Fact]
    public void A_segment_cut_inside_its_header_is_damage_and_the_clinic_goes_on()
    {
        FaultyDisk whole = MemoryJournal.Small();
        for (int cut = 0; cut < SegmentHeader.ByteCount; cut++)
        {
            FaultyDisk disk = whole.Clone();
            disk.Edit(MemoryJournal.Segment(2), bytes => bytes.RemoveRange(cut, bytes.Count - cut));
            using (JournalWriter writer = MemoryJournal.Open(disk))
                Assert.Equal(7, writer.Start.Recovered.Sequence);
            MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk), upTo: 7);
            Assert.Equal([1, 2, 3, 4, 5, 6], MemoryJournal.EntrySequences(disk));
            Assert.Contains(MemoryJournal.Verify(disk).Problems, p => p.Kind == ProblemKind.DamagedHeader);
        }
    }

    internal static long[] RecordEnds(byte[] segment)
    {
        List<long> ends = [];
        for (int at = SegmentHeader.ByteCount; at < segment.Length; )
        {
            int length = RecordLayout.RecordBytes(segment.AsSpan(at));
            if (length == 0)
                break;
            at += length;
            ends.Add(at);
        }
        return [.. ends];
    }
}
