using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links.Joined;

/// <summary>
/// The promise of the whole: whatever the line, the power, the disk and a rival host do, each event is in the journal exactly
/// once and in order, or stands there as an explicit loss that has a true cause; and the link comes to rest.
/// </summary>
public class JoinedLinksTests
{
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Each_event_is_in_the_journal_once_and_in_order_or_stands_as_lost(int seed)
    {
        var world = new JoinedWorld(seed, capacity: seed % 2 == 0 ? 512 : 20);
        world.Run(seconds: 60, faultRate: 0.02 * (seed % 8), eventsPerSecond: 1 + (seed % 5 * 4), mishaps: true);
        world.Run(seconds: 40, faultRate: 0, eventsPerSecond: 0, mishaps: false);
        Assert.Equal(HostLinkPhase.Connected, world.Host.State.Phase);
        Assert.Equal(InstrumentLinkPhase.Idle, world.Instrument.Phase);
        Assert.True(world.Now - world.LastEventLineAt > TimeSpan.FromSeconds(5), "It does not come to rest.");
        foreach (var (boot, truth) in world.Truth)
            CheckBoot(world, boot, truth, isLast: boot == world.Instrument.Boot);
        // What differs from the journal can only be an event that turned up after it was given up.
        foreach (var late in world.Host.Conflicts)
            Assert.Equal(world.Truth[late.Boot][(int)late.Sequence - 1], late.Raw.ToArray());
    }

    public static TheoryData<int> Seeds() => [.. Enumerable.Range(1, 60)];

    private static void CheckBoot(JoinedWorld world, BootNumber boot, List<byte[]> truth, bool isLast)
    {
        var expected = 1L;
        var ended = false;
        foreach (var entry in world.Host.Journal.Where(e => e.Boot == boot))
        {
            Assert.False(ended, $"Boot {boot} goes on after its end.\n{world}");
            Assert.Equal(expected, entry.First);
            if (entry.Raw is { } raw)
                Assert.Equal(truth[(int)entry.First - 1], raw);
            else if (entry.Last is { } last)
                CheckLoss(world, boot, entry.First, last, entry.Cause);
            ended = entry.IsOff || entry.Last is null;
            expected = (entry.Last ?? entry.First) + 1;
        }

        if (isLast)
            Assert.Equal(truth.Count, expected - 1);
        else if (expected > 1)
            Assert.True(ended, $"Boot {boot} is left open after {expected - 1}.");
    }

    private static void CheckLoss(JoinedWorld world, BootNumber boot, long first, long last, LossCause cause)
    {
        for (var number = first; number <= last; number++)
        {
            var isTrue = cause switch
            {
                LossCause.MemoryOverflow => world.Dropped[boot].Contains(number),
                LossCause.TakenByOtherHost or LossCause.NoLongerKept => number
                    <= world.TakenByRival.GetValueOrDefault(boot),
                _ => false,
            };
            Assert.True(isTrue, $"Number {number} of boot {boot} is told as lost by {cause}, which is not so.");
        }
    }
}
