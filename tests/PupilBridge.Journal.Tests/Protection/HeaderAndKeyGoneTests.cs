using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>A segment's header is damaged, or another file's, and no key lies beside it: it is not read as if it were in the clear.</summary>
public sealed class HeaderAndKeyGoneTests
{
    [Theory]
    [InlineData(1, false)]
    [InlineData(1, true)]
    [InlineData(2, false)]
    [InlineData(2, true)]
    public void An_encrypted_one_is_refused_by_the_name_of_the_key_that_is_missing(int number, bool othersHeader)
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        byte[] key = disk.Content(MemoryJournal.Key(number));
        Spoil(disk, number, othersHeader);
        disk.Remove(MemoryJournal.Key(number));

        JournalKeyException refused = Assert.Throws<JournalKeyException>(() => MemoryJournal.ReadAll(disk));
        Assert.Contains(SegmentName.KeyOf(number), refused.Message, StringComparison.Ordinal);
        int operations = disk.Operations;
        Assert.Throws<JournalKeyException>(() =>
            JournalWriter.Open(disk, MemoryJournal.Options(encrypt: true)).Dispose()
        );
        Assert.Equal(operations, disk.Operations);
        Assert.Equal(
            [ProblemKind.DamagedHeader, ProblemKind.MissingKey],
            MemoryJournal
                .Verify(disk)
                .Problems.Where(p => p.Severity == ProblemSeverity.Damage)
                .Select(p => p.Kind)
                .Order()
        );

        // With the key put back all of it is there.
        PutBack(disk, number, key);
        MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk));
        Assert.Equal(10, MemoryJournal.ReadAll(disk).Count);
    }

    [Fact]
    public void One_in_the_clear_is_read_between_others_in_the_clear()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        for (int life = 0; life < 3; life++)
        {
            using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options());
            writer.Append("in the clear"u8);
            Assert.True(writer.Commit().IsDurable);
        }
        long[] all = [.. MemoryJournal.ReadAll(disk).Select(r => r.Sequence)];
        Spoil(disk, 5, othersHeader: false);
        Assert.Equal(all, MemoryJournal.ReadAll(disk).Select(r => r.Sequence));
        JournalWriter.Open(disk, MemoryJournal.Options()).Dispose();
    }

    [Fact]
    public void One_of_an_older_version_of_which_nothing_is_told_is_read_and_remarked_on()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        OlderVersion.Rewrite(disk);
        Forgery.PutInTheClear(disk, 2, 2);
        Spoil(disk, 2, othersHeader: false);
        Assert.Equal(10, MemoryJournal.ReadAll(disk).Count);
        Assert.Contains(
            MemoryJournal.Verify(disk).Problems,
            p => p is { Kind: ProblemKind.MissingKey, Severity: ProblemSeverity.Remark }
        );
        JournalWriter.Open(disk, MemoryJournal.Options()).Dispose();
    }

    private static void Spoil(FaultyDisk disk, int number, bool othersHeader)
    {
        byte[] other = disk.Content(MemoryJournal.Segment(3 - Math.Min(number, 2)));
        if (!othersHeader)
            disk.Rot(MemoryJournal.Segment(number), 100, 1);
        else
            disk.Edit(
                MemoryJournal.Segment(number),
                bytes =>
                {
                    for (int i = 0; i < SegmentHeader.ByteCount; i++)
                        bytes[i] = other[i];
                }
            );
    }

    private static void PutBack(FaultyDisk disk, int number, byte[] key)
    {
        using (IJournalFile file = disk.Open(MemoryJournal.Key(number), JournalFileMode.CreateNew))
            file.Write(key, 0);
        disk.EndProcess();
    }
}
