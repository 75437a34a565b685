using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Verification;

/// <summary>Every single byte of a small journal is changed in turn; none of it may pass unseen, or be read as true.</summary>
public sealed class EveryByteTests
{
    [Theory]
    [InlineData(0, 0x01, false)]
    [InlineData(0, 0x80, false)]
    [InlineData(0, 0xFF, false)]
    [InlineData(64, 0x10, false)]
    [InlineData(0, 0x01, true)]
    [InlineData(64, 0x80, true)]
    public void Verify_reports_every_changed_byte(int preallocate, byte mask, bool encrypt)
    {
        FaultyDisk whole = MemoryJournal.Small(preallocate, encrypt);
        Assert.Empty(MemoryJournal.Verify(whole).Problems);
        foreach ((string path, int offset) in EveryByte(whole))
        {
            whole.Rot(path, offset, mask);
            Assert.True(MemoryJournal.Verify(whole).Problems.Count > 0, $"{path} byte {offset} passed unseen");
            MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(whole));
            whole.Rot(path, offset, mask);
        }
        Assert.Empty(MemoryJournal.Verify(whole).Problems);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_changed_byte_costs_at_most_the_record_that_it_hit_where_a_later_commit_vouches_for_it(bool encrypt)
    {
        FaultyDisk whole = MemoryJournal.Small(encrypt: encrypt);
        byte[] first = whole.Content(MemoryJournal.Segment(1));
        for (int offset = 0; offset < first.Length; offset++)
        {
            whole.Rot(MemoryJournal.Segment(1), offset, 0x04);
            List<JournalRecord> records = MemoryJournal.ReadAll(whole);
            Assert.True(records.Count >= 9, $"byte {offset} cost {10 - records.Count} records");
            MemoryJournal.AssertNothingFalse(records);
            whole.Rot(MemoryJournal.Segment(1), offset, 0x04);
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void After_any_changed_byte_the_clinic_goes_on_and_no_sequence_is_given_twice(bool encrypt)
    {
        FaultyDisk whole = MemoryJournal.Small(encrypt: encrypt);
        foreach ((string path, int offset) in EveryByte(whole))
        {
            FaultyDisk disk = whole.Clone();
            disk.Rot(path, offset, 0x20);
            List<long> before = MemoryJournal.EntrySequences(disk);
            using (JournalWriter writer = MemoryJournal.Open(disk))
            {
                long next = writer.Append("after"u8);
                Assert.True(next > before.DefaultIfEmpty().Max(), $"{path} byte {offset}");
                Assert.True(writer.Commit().IsDurable);
            }
            List<JournalRecord> after = MemoryJournal.ReadAll(disk);
            Assert.Equal(before, after.Where(r => r.Class == RecordClass.Entry).SkipLast(1).Select(r => r.Sequence));
            Assert.True(MemoryJournal.Verify(disk).Problems.Count > 0, $"{path} byte {offset} was forgotten");
        }
    }

    private static IEnumerable<(string Path, int Offset)> EveryByte(FaultyDisk disk)
    {
        foreach (int number in new[] { 1, 2 })
        {
            string path = MemoryJournal.Segment(number);
            int length = disk.Content(path).Length;
            for (int offset = 0; offset < length; offset++)
                yield return (path, offset);
        }
    }
}
