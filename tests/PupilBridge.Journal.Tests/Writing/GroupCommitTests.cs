using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Writing;

/// <summary>What gathers during one sync shares the next; nobody is told before, and all are told in order.</summary>
public sealed class GroupCommitTests : IDisposable
{
    private readonly FaultyDisk _disk = new(1);
    private readonly RecordingListener _listener = new();
    private readonly JournalThread _journal;

    public GroupCommitTests()
    {
        var limits = new JournalThreadOptions { SharePerSource = 8, ShareBytesPerSource = 1000 };
        _journal = new JournalThread(MemoryJournal.Open(_disk), limits);
    }

    public void Dispose()
    {
        _disk.SyncGate.Set();
        _journal.Dispose();
    }

    [Fact]
    public async Task Entries_that_gather_while_the_disk_works_share_one_sync_in_the_order_given()
    {
        JournalSource a = _journal.OpenSource("Quay-A");
        JournalSource b = _journal.OpenSource("Quay-B");
        int before = _disk.Syncs;
        _disk.SyncGate.Reset();
        a.Post("first"u8.ToArray(), _listener, 0);
        await InSync();
        for (int i = 1; i <= 7; i++)
            (i % 2 == 0 ? a : b).Post(Encoding.UTF8.GetBytes($"entry {i}"), _listener, i);
        Assert.Empty(_listener.Durable);
        Assert.Equal(0, _journal.Durable.Position.Sequence);

        _disk.SyncGate.Set();

        await Eventually.Is(() => _listener.Durable.Count == 8);
        Assert.Equal(Enumerable.Range(0, 8).Select(i => ((long)i, i + 1L)), _listener.Durable);
        Assert.Equal(2, _disk.Syncs - before);
        Assert.Equal(8, _journal.Durable.Position.Sequence);
    }

    [Fact]
    public async Task One_with_a_backlog_waits_and_does_not_keep_the_others_out()
    {
        JournalSource flood = _journal.OpenSource("Quay-A");
        JournalSource other = _journal.OpenSource("Quay-B");
        _disk.SyncGate.Reset();
        List<Task> posts = [];
        for (int i = 0; i < 100; i++)
            posts.Add(flood.PostAsync(Encoding.UTF8.GetBytes($"flood {i}"), _listener, i).AsTask());

        Assert.Equal(8, posts.Count(p => p.IsCompletedSuccessfully));
        Assert.True(other.TryPost("a person's entry"u8, _listener, 1000));
        Assert.False(flood.TryPost("more"u8, _listener, 1001));

        _disk.SyncGate.Set();
        await Task.WhenAll(posts).WaitAsync(Eventually.Deadline);
        await Eventually.Is(() => _listener.Durable.Count == 101);
        (long Tag, long Sequence)[] told = [.. _listener.Durable];
        Assert.Equal(Enumerable.Range(0, 100).Select(i => (long)i), told.Select(t => t.Tag).Where(t => t < 1000));
        Assert.True(told.Single(t => t.Tag == 1000).Sequence <= 9);
        Assert.Equal(101, MemoryJournal.EntrySequences(_disk).Count);
    }

    [Fact]
    public async Task Bytes_count_too_but_a_single_large_entry_is_always_let_in()
    {
        JournalSource source = _journal.OpenSource("Quay-A");
        _disk.SyncGate.Reset();
        Assert.True(source.TryPost(new byte[60_000], _listener, 1));
        Assert.False(source.TryPost(new byte[1], _listener, 2));
        _disk.SyncGate.Set();
        await Eventually.Is(() => source.TryPost(new byte[900], _listener, 3));
    }

    [Fact]
    public async Task A_small_entry_does_not_overtake_a_large_one_that_waits_for_room()
    {
        JournalSource source = _journal.OpenSource("Quay-A");
        _disk.SyncGate.Reset();
        Assert.True(source.TryPost(new byte[600], _listener, 1));
        Task large = source.PostAsync(new byte[600], _listener, 2).AsTask();
        Assert.False(source.TryPost(new byte[10], _listener, 0));
        Task small = source.PostAsync(new byte[10], _listener, 3).AsTask();
        Assert.False(large.IsCompleted || small.IsCompleted);
        _disk.SyncGate.Set();
        await Eventually.Is(() => _listener.Durable.Count == 3);
        Assert.Equal([(1, 1), (2, 2), (3, 3)], _listener.Durable);
    }

    [Fact]
    public async Task An_entry_that_waits_for_room_can_be_called_back_and_one_let_in_cannot()
    {
        JournalSource source = _journal.OpenSource("Quay-A");
        _disk.SyncGate.Reset();
        using var cancel = new CancellationTokenSource();
        Task<long>[] let =
        [
            .. Enumerable.Range(0, 8).Select(_ => source.AppendAsync(new byte[1], cancel.Token).AsTask()),
        ];
        Task<long> waits = source.AppendAsync(new byte[1], cancel.Token).AsTask();
        Task<long> behind = source.AppendAsync(new byte[1]).AsTask();
        await cancel.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waits);
        _disk.SyncGate.Set();
        long[] recorded = await Task.WhenAll(let).WaitAsync(Eventually.Deadline);
        Assert.Equal([1, 2, 3, 4, 5, 6, 7, 8], recorded);
        Assert.Equal(9, await behind.WaitAsync(Eventually.Deadline));
    }

    [Fact]
    public async Task A_listener_that_throws_harms_nobody_else()
    {
        Exception? reported = null;
        _journal.ListenerFailed += e => reported = e;
        JournalSource source = _journal.OpenSource("Quay-A");
        source.Post(new byte[1], new Thrower(), 1);
        source.Post(new byte[1], _listener, 2);
        await Eventually.Is(() => _listener.Durable.Count == 1);
        Assert.Equal("a fault of its own", reported?.Message);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(65_537)]
    public void What_is_empty_or_too_long_is_refused_at_once(int bytes)
    {
        JournalSource source = _journal.OpenSource("Quay-A");
        ArgumentException refused = Assert.Throws<ArgumentException>(() => source.TryPost(new byte[bytes], null, 0));
        Assert.Contains("1 to 65536 bytes", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_threads_lose_nothing_and_each_keeps_its_order()
    {
        Task[] writers =
        [
            .. Enumerable
                .Range(0, 6)
                .Select(w =>
                    Task.Run(async () =>
                    {
                        JournalSource source = _journal.OpenSource($"lane {w}");
                        for (int i = 0; i < 300; i++)
                            await source.PostAsync(Encoding.UTF8.GetBytes($"{w} {i}"), _listener, (w * 1000) + i);
                    })
                ),
        ];
        await Task.WhenAll(writers).WaitAsync(Eventually.Deadline);
        Assert.True(_journal.Stop(TimeSpan.FromSeconds(30)));
        (long Tag, long Sequence)[] told = [.. _listener.Durable];
        Assert.Equal(Enumerable.Range(1, 1800).Select(i => (long)i), told.Select(t => t.Sequence));
        for (int w = 0; w < 6; w++)
            Assert.Equal(
                Enumerable.Range(0, 300).Select(i => (long)i),
                told.Where(t => t.Tag / 1000 == w).Select(t => t.Tag % 1000)
            );
        Dictionary<long, string> stored = MemoryJournal
            .ReadAll(_disk)
            .ToDictionary(r => r.Sequence, r => Encoding.UTF8.GetString(r.Payload.Span));
        Assert.All(told, t => Assert.Equal($"{t.Tag / 1000} {t.Tag % 1000}", stored[t.Sequence]));
    }

    /// <summary>The first entry is on its way to the disk: its bytes are there, its sync has not returned.</summary>
    private Task InSync() => Eventually.Is(() => MemoryJournal.EntrySequences(_disk).Count == 1);

    private sealed class Thrower : IDurableListener
    {
        public void OnDurable(long tag, long sequence) => throw new InvalidOperationException("a fault of its own");

        public void OnNotRecorded(long tag, string reason) { }
    }
}
