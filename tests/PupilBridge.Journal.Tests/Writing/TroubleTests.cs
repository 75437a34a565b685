using System.Collections.Concurrent;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Writing;

/// <summary>The disk fails under a running journal thread.</summary>
public sealed class TroubleTests
{
    private readonly FaultyDisk _disk = new(1);
    private readonly FakeTimeProvider _time = new();
    private readonly RecordingListener _listener = new();
    private readonly ConcurrentQueue<JournalTrouble?> _troubles = [];

    [Fact]
    public async Task Entries_stay_pending_while_the_disk_is_full_and_are_recorded_when_it_is_not()
    {
        using JournalThread journal = Start();
        JournalSource source = journal.OpenSource("Quay-A");
        await source.AppendAsync("before"u8.ToArray());
        _disk.Capacity = 0;
        Task<long>[] pending = [.. Enumerable.Range(0, 5).Select(_ => source.AppendAsync(new byte[200]).AsTask())];
        await Eventually.Is(() => journal.Trouble is { IsDiskFull: true });
        for (int i = 0; i < 10; i++)
            _time.Advance(TimeSpan.FromSeconds(5));
        Assert.All(pending, p => Assert.False(p.IsCompleted));
        _disk.Capacity = long.MaxValue;

        Task<long[]> all = Task.WhenAll(pending);
        await Eventually.Is(() =>
        {
            _time.Advance(TimeSpan.FromSeconds(5));
            return all.IsCompleted;
        });

        long[] sequences = await all.WaitAsync(Eventually.Deadline);
        Assert.Equal(sequences.Order(), sequences);
        Assert.Equal(5, sequences.Distinct().Count());
        await Eventually.Is(() => journal.Trouble is null);
        Assert.Contains(_troubles, t => t is { IsDiskFull: true });
        Assert.Null(_troubles.Last());
        Assert.Equal(6, MemoryJournal.EntrySequences(_disk).Count);
    }

    [Fact]
    public async Task While_the_disk_hangs_memory_stays_within_the_shares()
    {
        using JournalThread journal = Start(new JournalThreadOptions { SharePerSource = 16 });
        _disk.SyncGate.Reset();
        JournalSource[] sources = [.. Enumerable.Range(0, 4).Select(i => journal.OpenSource($"lane {i}"))];
        int taken = 0;
        for (int i = 0; i < 10_000; i++)
        {
            if (sources[i % 4].TryPost(new byte[100], _listener, i))
                taken++;
        }
        Assert.Equal(4 * 16, taken);
        _disk.SyncGate.Set();
        await Eventually.Is(() => _listener.Durable.Count == taken);
    }

    [Fact]
    public async Task A_stop_while_the_disk_refuses_tells_those_who_wait_that_nothing_was_recorded()
    {
        using JournalThread journal = Start(new JournalThreadOptions { SharePerSource = 2 });
        JournalSource source = journal.OpenSource("Quay-A");
        await source.AppendAsync("before"u8.ToArray());
        _disk.FailAt = 1;
        _disk.FailFor = int.MaxValue / 2;
        Task<long>[] pending = [.. Enumerable.Range(0, 5).Select(_ => source.AppendAsync(new byte[10]).AsTask())];
        await Eventually.Is(() => journal.Trouble is not null);

        Assert.False(journal.Stop(TimeSpan.FromSeconds(30)));

        foreach (Task<long> p in pending)
        {
            JournalStoppedException refused = await Assert.ThrowsAsync<JournalStoppedException>(() => p);
            Assert.Contains("Nothing can be recorded", refused.Message, StringComparison.Ordinal);
        }
        Assert.Throws<JournalStoppedException>(() => source.TryPost(new byte[1], null, 0));
        Assert.False(_disk.IsLocked(MemoryJournal.Folder));
    }

    [Fact]
    public async Task A_stop_records_what_waits_even_beyond_the_share_and_marks_it_clean()
    {
        using JournalThread journal = Start(new JournalThreadOptions { SharePerSource = 2 });
        JournalSource source = journal.OpenSource("Quay-A");
        _disk.SyncGate.Reset();
        Task<long>[] pending = [.. Enumerable.Range(0, 20).Select(_ => source.AppendAsync(new byte[10]).AsTask())];
        Task<bool> stop = Task.Run(() => journal.Stop(TimeSpan.FromSeconds(30)));
        _disk.SyncGate.Set();
        Assert.True(await stop);
        // What came after the stop was asked for is refused; what came before is recorded.
        Assert.Equal(20, (await Task.WhenAll(pending).WaitAsync(Eventually.Deadline)).Length);
        Assert.True(MemoryJournal.Verify(_disk).EndsCleanly);
    }

    [Fact]
    public async Task A_stop_does_not_wait_longer_than_its_limit_for_a_disk_that_hangs()
    {
        using JournalThread journal = Start();
        _disk.SyncGate.Reset();
        JournalSource source = journal.OpenSource("Quay-A");
        Task<long> pending = source.AppendAsync(new byte[10]).AsTask();
        Assert.False(journal.Stop(TimeSpan.FromMilliseconds(50)));
        Assert.False(pending.IsCompleted);
        _disk.SyncGate.Set();
        Assert.Equal(1, await pending.WaitAsync(Eventually.Deadline));
    }

    [Fact]
    public async Task Disposing_is_a_crash_without_the_crash()
    {
        JournalThread journal = Start();
        await journal.OpenSource("Quay-A").AppendAsync(new byte[10]);
        journal.Dispose();
        using JournalWriter again = MemoryJournal.Open(_disk);
        Assert.False(again.Start.LastStopWasClean);
        Assert.Equal(1, again.Start.Recovered.Sequence);
    }

    private JournalThread Start(JournalThreadOptions? limits = null)
    {
        var journal = new JournalThread(
            JournalWriter.Open(_disk, MemoryJournal.Options() with { Time = _time }),
            limits
        );
        journal.TroubleChanged += _troubles.Enqueue;
        return journal;
    }
}
