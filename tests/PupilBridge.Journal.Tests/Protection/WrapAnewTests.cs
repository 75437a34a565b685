using PupilBridge.Journal.Tests.Faults;
using PupilBridge.Keys;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>Another master key wraps the segments' keys; the segments are not touched.</summary>
public sealed class WrapAnewTests
{
    private static readonly KeyRing Both = MemoryJournal.Keys.With(MasterKey.Create(TimeProvider.System));

    private static readonly JournalFolder New = MemoryJournal.Folder with
    {
        Keys = Both.Keeping(new HashSet<MasterKeyId>()),
    };

    private static readonly JournalFolder OldAndNew = MemoryJournal.Folder with { Keys = Both };

    [Fact]
    public void Then_the_new_key_alone_opens_everything_and_the_old_one_nothing()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        byte[] segment = disk.Content(MemoryJournal.Segment(1));

        Assert.Equal(2, JournalKeys.WrapAnew(disk, OldAndNew));

        Assert.Equal(segment, disk.Content(MemoryJournal.Segment(1)));
        Assert.Equal(10, ReadWith(disk, New));
        Assert.Throws<JournalKeyException>(() => ReadWith(disk, MemoryJournal.Folder));
        Assert.Equal([new(Both.Current, 2)], JournalKeys.Uses(disk, New).ToList());
        Assert.Empty(JournalVerifier.Verify(disk, New).Problems);
        Assert.Equal(0, JournalKeys.WrapAnew(disk, New));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Whichever_operation_fails_every_key_opens_and_it_can_be_done_again(bool powerLoss)
    {
        int failed = 0;
        for (int n = 1; ; n++)
        {
            FaultyDisk disk = MemoryJournal.Small(encrypt: true).Clone(seed: n);
            disk.FailAt = disk.Operations + n;
            disk.FailFor = int.MaxValue / 2;
            bool ended = TryWrapAnew(disk);
            failed += disk.Failed;
            disk.FailAt = 0;
            if (powerLoss)
                disk.LosePower();
            Assert.Equal(10, ReadWith(disk, OldAndNew));
            JournalKeys.WrapAnew(disk, OldAndNew);
            Assert.Equal(10, ReadWith(disk, New));
            Assert.Empty(JournalVerifier.Verify(disk, New).Problems);
            if (ended)
                break;
        }
        // Opening, two writes and two syncs for each of two segments.
        Assert.True(failed >= 10, $"only {failed} operations failed");
    }

    [Fact]
    public void A_key_that_cannot_be_opened_stops_it()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        JournalFolder stranger = MemoryJournal.Folder with { Keys = KeyRing.Create(TimeProvider.System) };
        var refused = Assert.Throws<JournalKeyException>(() => JournalKeys.WrapAnew(disk, stranger));
        Assert.Contains("segment-0000000001.key", refused.Message, StringComparison.Ordinal);
        Assert.Equal(10, ReadWith(disk, MemoryJournal.Folder));
    }

    private static bool TryWrapAnew(FaultyDisk disk)
    {
        try
        {
            JournalKeys.WrapAnew(disk, OldAndNew);
            return true;
        }
        catch (IOException)
        {
            return false;
        }
    }

    private static int ReadWith(FaultyDisk disk, JournalFolder folder)
    {
        using JournalReader reader = JournalReader.Settled(disk, folder);
        return reader.ReadAll().Count();
    }
}
