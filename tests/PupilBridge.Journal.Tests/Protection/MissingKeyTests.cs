using PupilBridge.Journal.Tests.Faults;
using PupilBridge.Keys;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>A key is missing, wrong or damaged: a start says which and changes nothing.</summary>
public sealed class MissingKeyTests
{
    [Fact]
    public void Without_a_master_key_the_start_is_refused() =>
        AssertRefused(
            MemoryJournal.Small(encrypt: true),
            MemoryJournal.Folder with
            {
                Keys = null,
            },
            "no master key is at hand",
            MemoryJournal.Keys.Current.ToString()
        );

    [Fact]
    public void With_another_master_key_the_start_is_refused() =>
        AssertRefused(
            MemoryJournal.Small(encrypt: true),
            MemoryJournal.Folder with
            {
                Keys = KeyRing.Create(TimeProvider.System),
            },
            MemoryJournal.Keys.Current.ToString()
        );

    [Fact]
    public void Without_a_segments_key_the_start_is_refused()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        disk.Remove(MemoryJournal.Key(1));
        AssertRefused(disk, MemoryJournal.Folder, MemoryJournal.Segment(1), "segment-0000000001.key", "missing");
        Assert.Equal(ProblemKind.MissingKey, Assert.Single(MemoryJournal.Verify(disk).Problems).Kind);
        Assert.False(JournalVerifier.Verify(disk, MemoryJournal.Folder with { Keys = null }).IsSound);
    }

    [Fact]
    public void With_another_segments_key_the_start_is_refused()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        byte[] other = disk.Content(MemoryJournal.Key(2));
        disk.Edit(MemoryJournal.Key(1), bytes => Replace(bytes, other));
        AssertRefused(disk, MemoryJournal.Folder, MemoryJournal.Segment(1), "holds another one");
    }

    [Theory]
    [InlineData(0x01)]
    [InlineData(0x80)]
    public void Every_changed_byte_of_a_key_file_is_found_and_costs_nothing(byte mask)
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        string path = MemoryJournal.Key(1);
        int length = disk.Content(path).Length;
        for (int offset = 0; offset < length; offset++)
        {
            disk.Rot(path, offset, mask);
            JournalProblem problem = Assert.Single(MemoryJournal.Verify(disk).Problems);
            Assert.Equal((ProblemKind.MissingKey, ProblemSeverity.Remark), (problem.Kind, problem.Severity));
            Assert.Equal("segment-0000000001.key", problem.File);
            Assert.Equal(10, MemoryJournal.ReadAll(disk).Count);
            disk.Rot(path, offset, mask);
        }
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
    }

    [Fact]
    public void A_key_file_cut_anywhere_in_its_second_copy_costs_nothing_and_in_its_first_all()
    {
        FaultyDisk whole = MemoryJournal.Small(encrypt: true);
        int length = whole.Content(MemoryJournal.Key(1)).Length;
        int first = length - SegmentKeyRecord.SecondCopyAt;
        for (int cut = 0; cut < length; cut++)
        {
            FaultyDisk disk = whole.Clone();
            disk.Edit(MemoryJournal.Key(1), bytes => bytes.RemoveRange(cut, bytes.Count - cut));
            Assert.NotEmpty(MemoryJournal.Verify(disk).Problems);
            if (cut >= first)
                Assert.Equal(10, MemoryJournal.ReadAll(disk).Count);
            else
                Assert.Throws<JournalKeyException>(() => MemoryJournal.ReadAll(disk));
        }
    }

    [Fact]
    public void To_encrypt_without_a_master_key_is_refused()
    {
        var options = MemoryJournal.Options(encrypt: true) with { Folder = MemoryJournal.Folder with { Keys = null } };
        Assert.Throws<JournalKeyException>(() => JournalWriter.Open(new FaultyDisk(0), options));
    }

    private static void AssertRefused(FaultyDisk disk, JournalFolder folder, params string[] says)
    {
        string[] before = [.. Files(disk)];
        int operations = disk.Operations;
        JournalOptions options = MemoryJournal.Options() with { Folder = folder };

        JournalKeyException refused = Assert.Throws<JournalKeyException>(() => JournalWriter.Open(disk, options));

        Assert.All(says, words => Assert.Contains(words, refused.Message, StringComparison.Ordinal));
        Assert.Equal(before, Files(disk));
        Assert.Equal(operations, disk.Operations);
        Assert.False(disk.IsLocked(folder));
        using JournalReader reader = JournalReader.Settled(disk, folder);
        Assert.Throws<JournalKeyException>(() => reader.ReadAll().Count());
    }

    private static IEnumerable<string> Files(FaultyDisk disk) =>
        disk.List(MemoryJournal.Folder.Segments)
            .Select(name => name + Convert.ToHexString(disk.Content(MemoryJournal.Folder.InSegments(name))));

    private static void Replace(List<byte> bytes, byte[] by)
    {
        bytes.Clear();
        bytes.AddRange(by);
    }
}
