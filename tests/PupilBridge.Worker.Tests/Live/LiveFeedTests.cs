using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Tests.Live;

public sealed class LiveFeedTests
{
    private int state;

    private void Set(LiveFeed<string> feed, int value) => feed.Tell(() => $"now {state = value}");

    [Fact]
    public void A_listener_begins_with_the_present_state_and_gets_what_follows()
    {
        var feed = new LiveFeed<string>(8);
        Set(feed, 1);
        var (snapshot, changes) = feed.Listen(() => state);
        Set(feed, 2);

        Assert.Equal(1, snapshot);
        Assert.True(changes.TryRead(out var change));
        Assert.Equal("now 2", change);
        Assert.False(changes.TryRead(out _));
    }

    [Fact]
    public async Task A_slow_listener_is_dropped_and_told_and_the_others_go_on()
    {
        var feed = new LiveFeed<string>(4);
        var (_, slow) = feed.Listen(() => state);
        var (_, quick) = feed.Listen(() => state);
        var seen = new List<string>();
        for (var i = 1; i <= 10; i++)
        {
            Set(feed, i);
            Assert.True(quick.TryRead(out _));
        }

        var told = await Assert.ThrowsAsync<ListenerTooSlowException>(async () =>
        {
            await foreach (var change in slow.ReadAllAsync())
                seen.Add(change);
        });

        Assert.Equal(["now 1", "now 2", "now 3", "now 4"], seen);
        Assert.Contains("4 changes behind", told.Message, StringComparison.Ordinal);
        Assert.Equal(1, feed.Dropped);
        Assert.Equal(1, feed.Listeners);

        var (snapshot, again) = feed.Listen(() => state);
        Set(feed, 11);
        Assert.Equal(10, snapshot);
        Assert.True(again.TryRead(out var next));
        Assert.Equal("now 11", next);
    }

    [Fact]
    public async Task Nothing_falls_between_snapshot_and_changes_when_both_happen_at_once()
    {
        var feed = new LiveFeed<string>(100_000);
        using var begun = new ManualResetEventSlim();
        var teller = Task.Run(() =>
        {
            for (var i = 1; i <= 20_000; i++)
            {
                Set(feed, i);
                if (i == 1_000)
                    begun.Set();
            }
        });
        begun.Wait();
        var (snapshot, changes) = feed.Listen(() => state);
        await teller;

        for (var expected = snapshot + 1; expected <= 20_000; expected++)
        {
            Assert.True(changes.TryRead(out var change));
            Assert.Equal($"now {expected}", change);
        }
    }

    [Fact]
    public void A_disposed_listener_is_forgotten()
    {
        var feed = new LiveFeed<string>(1);
        var (_, changes) = feed.Listen(() => state);
        changes.Dispose();
        Assert.Equal(0, feed.Listeners);
        Set(feed, 1);
        Set(feed, 2);
        Assert.Equal(0, feed.Dropped);
    }
}
