using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>Encryption is switched off: a record under the key says so before the first segment in the clear, whatever fails meanwhile.</summary>
public sealed class SwitchedOffTests
{
    [Fact]
    public void The_word_stands_under_the_key_in_a_segment_of_its_own()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        using (JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options()))
            MemoryJournal.Append(writer, 12, 14);

        IReadOnlyList<SegmentFile> segments = SegmentChain.Load(disk, MemoryJournal.Folder).Segments;
        Assert.Equal([1, 1, 1, 0], segments.Select(s => s.Header!.Protection));
        Assert.Equal(
            [StoredForm.NotTold, StoredForm.Encrypted, StoredForm.Encrypted, StoredForm.Encrypted],
            segments.Select(s => s.Header!.PredecessorForm)
        );
        JournalRecord word = MemoryJournal.ReadAll(disk)[10];
        Assert.Equal(ProblemKind.GoesOnInTheClear, JournalNotice.TryDecode(word.Payload.Span)?.Kind);
        byte[] text = Encoding.UTF8.GetBytes("GoesOnInTheClear");
        Assert.True(disk.Content(MemoryJournal.Segment(3)).AsSpan().IndexOf(text) < 0);

        Assert.Empty(MemoryJournal.Verify(disk).Problems);
        // Without the key it is a notice that nobody can read.
        VerifyReport keyless = JournalVerifier.Verify(disk, MemoryJournal.Folder with { Keys = null });
        Assert.True(keyless.IsSound);
        Assert.Equal(ProblemKind.ClearUnannounced, Assert.Single(keyless.Problems).Kind);
    }

    [Fact]
    public void It_is_said_once_for_each_time_that_it_is_switched_off()
    {
        FaultyDisk disk = MemoryJournal.Small(encrypt: true);
        foreach (bool encrypt in (bool[])[false, false, true, true, false, false])
        {
            using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: encrypt));
            Assert.Empty(writer.Start.Problems);
            writer.Append("a reading"u8);
            Assert.True(writer.StopCleanly().IsDurable);
        }
        Assert.Equal(2, Words(disk));
        Assert.Empty(MemoryJournal.Verify(disk).Problems);
    }

    [Theory]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(true, true)]
    public void Wherever_the_process_dies_on_the_way_nothing_is_lost_and_nothing_falsely_told(
        bool powerLoss,
        bool encryptAgain
    )
    {
        int died = 0;
        for (int n = 1; died == n - 1; n++)
        {
            var disk = MemoryJournal.Small(encrypt: true);
            disk.DieAt = disk.Operations + n;
            try
            {
                using JournalWriter dying = JournalWriter.Open(disk, MemoryJournal.Options());
                dying.Append("before it died"u8);
                dying.Commit();
            }
            catch (ProcessDiedException)
            {
                died++;
            }
            disk.DieAt = 0;
            disk.EndProcess();
            if (powerLoss)
                disk.LosePower();
            using (JournalWriter next = JournalWriter.Open(disk, MemoryJournal.Options(encrypt: encryptAgain)))
            {
                Assert.DoesNotContain(next.Start.Problems, p => p.Kind == ProblemKind.ClearUnannounced);
                next.Append("after it"u8);
                Assert.True(next.Commit().IsDurable);
            }
            VerifyReport report = MemoryJournal.Verify(disk);
            Assert.True(report.IsSound, $"operation {n}: {string.Join('\n', report.Problems)}");
            Assert.DoesNotContain(report.Problems, p => p.Kind == ProblemKind.ClearUnannounced);
            MemoryJournal.AssertNothingFalse(MemoryJournal.ReadAll(disk));
            Assert.Equal(10, MemoryJournal.ReadAll(disk).Count(r => r.Sequence <= 10));
        }
        Assert.True(died > 15, $"it died at {died} operations only");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    public void Whichever_operation_fails_the_numbers_that_were_given_stand(int failFor)
    {
        int failed = 0;
        for (int n = 1; n < 30; n++)
        {
            FaultyDisk disk = MemoryJournal.Small(encrypt: true);
            (disk.FailAt, disk.FailFor) = (disk.Operations + n, failFor);
            JournalWriter? writer = TryOpen(disk);
            failed += disk.Failed > 0 ? 1 : 0;
            writer ??= JournalWriter.Open(disk, MemoryJournal.Options());
            using JournalWriter open = writer;
            long sequence = open.Append("a reading"u8);
            for (int tries = 0; !open.Commit().IsDurable; tries++)
                Assert.True(tries < 10, "it does not come to an end");
            Assert.Equal(
                "a reading",
                Encoding.UTF8.GetString(MemoryJournal.ReadAll(disk).Single(r => r.Sequence == sequence).Payload.Span)
            );
            Assert.Equal(1, Words(disk));
            Assert.DoesNotContain(MemoryJournal.Verify(disk).Problems, p => p.Kind == ProblemKind.ClearUnannounced);
        }
        Assert.True(failed > 10, $"only {failed} starts met a failure");
    }

    [Fact]
    public void Over_many_lives_with_encryption_on_and_off_and_power_losses_nothing_is_lost()
    {
        int words = 0;
        for (int seed = 1; seed <= 30; seed++)
        {
            var chance = new Random(seed);
            var disk = new FaultyDisk(seed);
            JournalOptions options = MemoryJournal.Options(segmentBytes: chance.Next(1000, 9000));
            var life = new Life(disk, options, chance);
            for (int run = 0; run < 8; run++)
            {
                life.Options = options with { Encrypt = chance.Next(2) == 0 };
                (disk.FailAt, disk.FailFor) = (disk.Operations + chance.Next(1, 60), int.MaxValue / 2);
                try
                {
                    life.Run(batches: 20, tries: 3, stop: chance.Next(2) == 0);
                }
                catch (JournalException)
                {
                    // The failure met the start.
                }
                disk.FailAt = 0;
                disk.LosePower();
                JournalWriter.Open(disk, options with { Encrypt = chance.Next(2) == 0 }).Dispose();
                life.Check();
            }
            life.CheckSound();
            Assert.DoesNotContain(MemoryJournal.Verify(disk).Problems, p => p.Kind == ProblemKind.ClearUnannounced);
            words += Words(disk);
        }
        Assert.True(words > 30, $"encryption was switched off {words} times only");
    }

    private static JournalWriter? TryOpen(FaultyDisk disk)
    {
        try
        {
            return JournalWriter.Open(disk, MemoryJournal.Options());
        }
        catch (JournalException)
        {
            disk.FailAt = 0;
            return null;
        }
    }

    private static int Words(FaultyDisk disk) =>
        MemoryJournal
            .ReadAll(disk)
            .Count(r =>
                r.Class == RecordClass.Notice
                && JournalNotice.TryDecode(r.Payload.Span)?.Kind == ProblemKind.GoesOnInTheClear
            );
}
