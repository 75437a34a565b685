namespace PupilBridge.Journal.Tests.Disk;

public sealed class RealDiskTests : IDisposable
{
    private readonly TempJournal _temp = new();
    private readonly RealDisk _disk = RealDisk.Instance;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void Folders_are_made_with_those_above_them()
    {
        _disk.CreateFolder(_temp.Folder.Segments);
        _disk.CreateFolder(_temp.Folder.Segments);
        Assert.True(Directory.Exists(_temp.Folder.Segments));
        Assert.Empty(_disk.List(_temp.Folder.Segments));
        Assert.Empty(_disk.List(_temp.Folder.InSegments("none")));
    }

    [Fact]
    public void A_file_is_written_read_cut_renamed_and_deleted()
    {
        _disk.CreateFolder(_temp.Folder.Segments);
        string path = _temp.Folder.InSegments("a");
        string other = _temp.Folder.InSegments("b");
        using (IJournalFile file = _disk.Open(path, JournalFileMode.CreateNew))
        {
            file.Write("0123456789"u8, 0);
            file.Sync();
            file.SetLength(8);
            Assert.Equal(8, file.Length);
        }
        Assert.Throws<IOException>(() => _disk.Open(path, JournalFileMode.CreateNew));
        _disk.Rename(path, other);
        _disk.SyncFolder(_temp.Folder.Segments);
        Assert.Equal(["b"], _disk.List(_temp.Folder.Segments));
        using (IJournalFile file = _disk.Open(other, JournalFileMode.Read))
        {
            byte[] buffer = new byte[20];
            Assert.Equal(5, file.Read(buffer, 3));
            Assert.Equal("34567"u8.ToArray(), buffer[..5]);
            Assert.Equal(0, file.Read(buffer, 100));
        }
        _disk.Delete(other);
        _disk.Delete(other);
        Assert.Empty(_disk.List(_temp.Folder.Segments));
        Assert.True(_disk.FreeBytes(_temp.Folder.Segments) > 0);
    }

    [Fact]
    public void The_boot_is_known_here_and_stays_the_same() => Assert.NotEqual(Guid.Empty, _disk.BootId);

    // Linux: /dev/full refuses every write with ENOSPC, as a full disk does (its manual page, full(4)).
    [Fact]
    public void A_full_disk_is_told_from_other_failures()
    {
        using IJournalFile full = _disk.Open("/dev/full", JournalFileMode.ReadWrite);
        Assert.Throws<DiskFullException>(() => full.Write("x"u8, 0));
    }

    [Fact]
    public void A_journal_that_cannot_be_read_says_where_and_what_to_do()
    {
        Directory.CreateDirectory(_temp.Folder.Segments);
        Directory.CreateSymbolicLink(_temp.Folder.InSegments(SegmentName.Of(1)), "/nowhere/at/all");
        JournalException refused = Assert.Throws<JournalException>(_temp.Open);
        Assert.Contains(_temp.Folder.Segments, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Check the disk", refused.Message, StringComparison.Ordinal);
        Assert.False(_disk.IsLocked(_temp.Folder));
    }
}
