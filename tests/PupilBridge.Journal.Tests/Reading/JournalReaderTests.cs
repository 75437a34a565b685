using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Reading;

public sealed class JournalReaderTests
{
    [Fact]
    public void Reading_begins_at_any_sequence()
    {
        FaultyDisk disk = MemoryJournal.Small();
        for (int from = 1; from <= 12; from++)
        {
            using JournalReader reader = JournalReader.Settled(disk, MemoryJournal.Folder, from);
            int first = from;
            Assert.Equal(Enumerable.Range(1, 10).Where(i => i >= first), reader.ReadAll().Select(r => (int)r.Sequence));
        }
    }

    [Fact]
    public void An_empty_folder_has_no_records()
    {
        using JournalReader reader = JournalReader.Settled(new FaultyDisk(1), MemoryJournal.Folder);
        Assert.Null(reader.TryRead());
        Assert.Equal(default, MemoryJournal.Verify(new FaultyDisk(1)).Head);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100_000)]
    public void A_live_reader_returns_what_is_durable_and_not_a_byte_more(int preallocate)
    {
        var disk = new FaultyDisk(1);
        using JournalWriter writer = JournalWriter.Open(disk, MemoryJournal.Options(preallocate, segmentBytes: 2000));
        using JournalReader reader = JournalReader.Live(disk, MemoryJournal.Folder, 1, () => writer.Durable.Sequence);
        for (int i = 1; i <= 60; i++)
        {
            Assert.Null(reader.TryRead());
            writer.Append(Encoding.UTF8.GetBytes(MemoryJournal.Text(i)));
            if (i % 7 == 0)
            {
                // Written, but the sync fails: no reader may see it as recorded.
                disk.FailAt = disk.Operations + 2;
                Assert.False(writer.Commit().IsDurable);
                disk.FailAt = 0;
                Assert.Null(reader.TryRead());
            }
            Assert.True(writer.Commit().IsDurable);
            JournalRecord? record = reader.TryRead();
            while (record?.Class == RecordClass.Notice)
                record = reader.TryRead();
            Assert.Equal(MemoryJournal.Text(i), Encoding.UTF8.GetString(record!.Payload.Span));
            while (reader.TryRead() is { } rest)
                Assert.Equal(RecordClass.Notice, rest.Class);
            // Notices take sequences too, so that the number given next is not always i + 1.
        }
        Assert.Empty(reader.Problems);
    }

    [Fact]
    public async Task Followers_see_everything_once_and_in_order_beside_a_running_journal()
    {
        using var temp = new TempJournal();
        JournalOptions options = temp.Options with { MaxSegmentBytes = 20_000 };
        using var journal = new JournalThread(JournalWriter.Open(RealDisk.Instance, options));
        JournalSource source = journal.OpenSource("Quay-A");
        Task<List<string>>[] followers = [.. Enumerable.Range(0, 3).Select(_ => Task.Run(() => Follow(journal, 500)))];
        for (int i = 1; i <= 500; i++)
            await source.PostAsync(Encoding.UTF8.GetBytes($"entry {i}"), null, 0);
        foreach (List<string> seen in await Task.WhenAll(followers).WaitAsync(Eventually.Deadline))
            Assert.Equal(Enumerable.Range(1, 500).Select(i => $"entry {i}"), seen);
        VerifyReport report = temp.Verify();
        Assert.True(report.InUse);
        Assert.Empty(report.Problems);
        Assert.True(journal.Stop(TimeSpan.FromSeconds(30)));
        Assert.False(temp.Verify().InUse);
    }

    [Fact]
    public async Task Verify_beside_a_busy_writer_never_calls_a_write_under_way_damage()
    {
        using var temp = new TempJournal();
        JournalOptions options = temp.Options with { MaxSegmentBytes = 30_000 };
        using var journal = new JournalThread(JournalWriter.Open(RealDisk.Instance, options));
        JournalSource source = journal.OpenSource("Quay-A");
        using var done = new CancellationTokenSource();
        Task writing = Task.Run(async () =>
        {
            while (!done.IsCancellationRequested)
                await source.PostAsync(new byte[300], null, 0);
        });
        for (int i = 0; i < 60; i++)
        {
            VerifyReport report = temp.Verify();
            Assert.True(report.Problems.Count == 0, string.Join('\n', report.Problems));
        }
        await done.CancelAsync();
        await writing;
    }

    [Fact]
    public async Task Following_ends_when_cancelled()
    {
        using var journal = new JournalThread(MemoryJournal.Open(new FaultyDisk(1)));
        using var cancel = new CancellationTokenSource();
        Task following = Task.Run(async () =>
        {
            await foreach (JournalRecord _ in journal.FollowAsync(new FaultyDisk(1), 1, cancel.Token)) { }
        });
        await cancel.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => following);
    }

    private static async Task<List<string>> Follow(JournalThread journal, int count)
    {
        List<string> seen = [];
        await foreach (JournalRecord record in journal.FollowAsync(RealDisk.Instance, 1))
        {
            seen.Add(Encoding.UTF8.GetString(record.Payload.Span));
            if (seen.Count == count)
                break;
        }
        return seen;
    }
}
