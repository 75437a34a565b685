namespace PupilBridge.Journal.Tests.Faults;

/// <summary>Power is lost again and again, in the middle of whatever was being written.</summary>
public sealed class PowerLossTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Nothing_acknowledged_is_lost_over_many_lives_with_power_losses_and_failures(bool encrypt)
    {
        int acknowledged = 0;
        int failedCommits = 0;
        int cuts = 0;
        for (int seed = 1; seed <= 150; seed++)
        {
            var chance = new Random(seed);
            var disk = new FaultyDisk(seed);
            JournalOptions options = MemoryJournal.Options(
                chance.Next(2) * 700,
                segmentBytes: chance.Next(1000, 9000),
                encrypt
            );
            var life = new Life(disk, options, chance);
            for (int run = 0; run < 8; run++)
            {
                // The run ends by a failure that stays: that is where the power goes.
                disk.FailAt = disk.Operations + chance.Next(1, 60);
                disk.FailFor = chance.Next(3) == 0 ? 2 : int.MaxValue / 2;
                RunUntilItFails(life, chance);
                disk.FailAt = 0;
                disk.LosePower();
                cuts++;
                JournalWriter.Open(disk, options).Dispose();
                life.Check();
            }
            life.CheckSound();
            acknowledged += life.Acknowledged;
            failedCommits += life.FailedCommits;
        }
        Assert.Equal(1200, cuts);
        Assert.True(acknowledged > 10_000, $"only {acknowledged} entries were acknowledged");
        Assert.True(failedCommits > 500, $"only {failedCommits} commits failed");
    }

    [Fact]
    public void A_write_that_reached_the_disk_in_the_wrong_order_is_a_torn_tail_and_no_damage()
    {
        var disk = new FaultyDisk(1);
        using (JournalWriter writer = MemoryJournal.Open(disk))
            MemoryJournal.Append(writer, 1, 3);
        byte[] durable = disk.Content(MemoryJournal.Segment(1));
        using (JournalWriter writer = MemoryJournal.Open(disk))
            MemoryJournal.Append(writer, 4, 9);
        // Of the batch 4 to 9 the first record did not arrive, the others did: nobody was told of any of them.
        disk.Edit(MemoryJournal.Segment(2), bytes => bytes[SegmentHeader.ByteCount + RecordLayout.PayloadAt] = 0);

        using JournalWriter again = MemoryJournal.Open(disk);

        Assert.Equal(3, again.Start.Recovered.Sequence);
        Assert.Equal(ProblemKind.TornTail, Assert.Single(again.Start.Problems).Kind);
        Assert.Equal([1, 2, 3], MemoryJournal.EntrySequences(disk));
        Assert.True(MemoryJournal.Verify(disk).IsSound);
        Assert.Equal(durable, disk.Content(MemoryJournal.Segment(1)));
    }

    [Fact]
    public void A_start_tells_a_power_loss_from_a_killed_process_and_from_a_clean_stop()
    {
        FaultyDisk disk = MemoryJournal.Small();
        using (JournalWriter killed = MemoryJournal.Open(disk))
        {
            Assert.False(killed.Start.LastStopWasClean);
            Assert.True(killed.Start.SameBoot);
            Assert.False(killed.Start.PowerMayHaveFailed);
        }
        disk.LosePower();
        using (JournalWriter afterPowerLoss = MemoryJournal.Open(disk))
        {
            Assert.False(afterPowerLoss.Start.SameBoot);
            Assert.True(afterPowerLoss.Start.PowerMayHaveFailed);
            Assert.True(afterPowerLoss.StopCleanly().IsDurable);
        }
        disk.LosePower();
        using JournalWriter afterCleanStop = MemoryJournal.Open(disk);
        Assert.True(afterCleanStop.Start.LastStopWasClean);
        Assert.False(afterCleanStop.Start.PowerMayHaveFailed);
    }

    /// <summary>
    /// Found by the simulator of the whole: a record that the dead process had written and not synced, or whose sync had failed, is
    /// read by the next start, which builds on it, so the start must bring it to the disk first.
    /// </summary>
    [Theory]
    [InlineData(0, false)]
    [InlineData(700, false)]
    [InlineData(0, true)]
    [InlineData(700, true)]
    public void What_a_start_builds_on_is_on_the_disk_before_the_power_can_fail(int preallocate, bool failedSync)
    {
        var unsynced = 0;
        for (int seed = 1; seed <= 40; seed++)
        {
            var disk = new FaultyDisk(seed);
            JournalWriter dying = JournalWriter.Open(disk, MemoryJournal.Options(preallocate));
            MemoryJournal.Append(dying, 1, 2);
            dying.Append("written, not synced"u8);
            if (failedSync)
            {
                // The process learns that its sync failed, and dies before it can say so in a new segment.
                disk.FailAt = disk.Operations + 2;
                Assert.False(dying.Commit().IsDurable);
            }
            else
            {
                disk.DieAt = disk.Operations + 2;
                Assert.Throws<ProcessDiedException>(() => dying.Commit());
            }

            disk.EndProcess();
            using (JournalWriter next = MemoryJournal.Open(disk))
            {
                unsynced += next.Start.Recovered.Sequence == 3 ? 1 : 0;
                next.Append("built on it"u8);
                Assert.True(next.Commit().IsDurable);
            }

            disk.LosePower();
            VerifyReport report = MemoryJournal.Verify(disk);
            Assert.True(report.IsSound, $"seed {seed}: {string.Join('\n', report.Problems)}");
        }

        Assert.True(unsynced > 0, "no start ever met a record that was not synced");
    }

    private static void RunUntilItFails(Life life, Random chance)
    {
        try
        {
            life.Run(batches: 20, tries: 3, stop: chance.Next(2) == 0);
        }
        catch (JournalException)
        {
            // The failure met the start.
        }
    }
}
