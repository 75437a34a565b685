using PupilBridge.Worker.Lines;

namespace PupilBridge.Worker.Tests.Lines;

public sealed class ReconnectPipelineTests
{
    private static readonly ReconnectTiming Timing = new(TimeSpan.FromMilliseconds(250), TimeSpan.FromSeconds(30));

    [Theory]
    [InlineData(0, 0, 0.125)]
    [InlineData(0, 1, 0.25)]
    [InlineData(3, 1, 2)]
    [InlineData(7, 0, 15)]
    [InlineData(7, 1, 30)]
    [InlineData(int.MaxValue, 1, 30)]
    public void The_wait_doubles_to_the_cap_and_keeps_its_chance_there(int failures, double chance, double seconds) =>
        Assert.Equal(seconds, Timing.After(failures, chance).TotalSeconds, 9);

    [Fact]
    public async Task A_port_that_never_opens_is_tried_for_ever_with_growing_waits()
    {
        var time = new SignallingTime();
        var random = new Random(4);
        var told = new List<TimeSpan>();
        var tries = 0;
        var pipeline = ReconnectPipeline.Build(Timing, time, random.NextDouble, (_, wait) => told.Add(wait));
        using var stop = new CancellationTokenSource();
        var running = pipeline
            .ExecuteAsync(
                _ =>
                {
                    tries++;
                    throw new IOException("not there");
                },
                stop.Token
            )
            .AsTask();

        var waits = new List<TimeSpan>();
        for (var i = 0; i < 3_000; i++)
        {
            var wait = await time.NextWaitAsync();
            waits.Add(wait);
            time.Advance(wait);
        }

        await time.NextWaitAsync();
        Assert.Equal(3_001, tries);
        Assert.Equal(waits, told[..3_000]);
        for (var i = 0; i < waits.Count; i++)
        {
            var full = Math.Min(30, 0.25 * Math.Pow(2, i));
            Assert.InRange(waits[i].TotalSeconds, full / 2, full);
        }

        // At the cap the waits still differ: chance is not lost there.
        Assert.True(waits[20..].Distinct().Count() > 2_000);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
    }
}
