namespace PupilBridge.Journal.Tests.Faults;

/// <summary>The first, the second, the third … operation on the disk fails, until a run meets no failure.</summary>
public sealed class FailNthOperationTests
{
    [Theory]
    [InlineData(1, 0, false, false)]
    [InlineData(1, 700, true, false)]
    [InlineData(3, 700, false, false)]
    [InlineData(1_000_000, 700, true, false)]
    [InlineData(1, 0, false, true)]
    [InlineData(3, 700, true, true)]
    [InlineData(1_000_000, 700, true, true)]
    public void Nothing_acknowledged_is_lost_whichever_operation_fails(
        int failFor,
        int preallocate,
        bool powerLoss,
        bool encrypt
    )
    {
        int clean = 0;
        int failed = 0;
        for (int n = 1; clean == 0; n++)
        {
            var disk = new FaultyDisk(n);
            // Segments this small roll every few batches, so that making one fails too.
            JournalOptions options = MemoryJournal.Options(preallocate, segmentBytes: 3000, encrypt);
            var life = new Life(disk, options, new Random(n));
            Assert.True(life.Run(batches: 4, tries: 1, stop: n % 2 == 0));
            int before = disk.Operations;
            disk.FailAt = before + n;
            disk.FailFor = failFor;
            bool opened = TryRun(life);
            failed += disk.Failed;
            clean = disk.Failed == 0 ? n : 0;
            Assert.True(opened || disk.Failed > 0);
            disk.FailAt = 0;
            if (powerLoss)
                disk.LosePower();
            disk.EndProcess();
            life.CheckSound();
            Assert.True(life.Run(batches: 4, tries: 1, stop: true));
            life.CheckSound();
        }
        Assert.True(clean > 20, $"only {clean} operations were tried");
        Assert.True(failed >= clean - 1);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_single_failure_while_running_is_got_over_by_the_next_commit(bool encrypt)
    {
        for (int n = 1; n < 40; n++)
        {
            var disk = new FaultyDisk(n);
            using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: encrypt));
            disk.FailAt = disk.Operations + n;
            for (int i = 1; i <= 20; i++)
            {
                writer.Append("a reading"u8);
                if (!writer.Commit().IsDurable)
                    Assert.True(writer.Commit().IsDurable);
            }
            Assert.Equal(1, disk.Failed);
            Assert.Equal(20, MemoryJournal.EntrySequences(disk).Count);
        }
    }

    private static bool TryRun(Life life)
    {
        try
        {
            return life.Run(batches: 8, tries: 2, stop: true);
        }
        catch (JournalException)
        {
            // The failure met the reading at the start: the service does not start, and nothing was changed.
            return false;
        }
    }
}
