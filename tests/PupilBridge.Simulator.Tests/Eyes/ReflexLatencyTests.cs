using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Tests.Eyes;

public class ReflexLatencyTests
{
    // 253 − 14 ln L + 70 R − 29 R ln L (Ellis 1981 as equation 1 of Pamplona et al. 2009), worked by hand.
    [Theory]
    [InlineData(1, 0, 253)]
    [InlineData(Math.E, 0, 239)]
    [InlineData(1, 0.4, 281)]
    [InlineData(Math.E, 0.4, 255.4)]
    public void The_published_fit(double footLamberts, double hertz, double milliseconds) =>
        Assert.Equal(milliseconds, ReflexLatency.PublishedMilliseconds(footLamberts, hertz), 9);

    // Common practice: latencies of 0.2 to 0.5 s are reported; shorter in brighter light.
    [Fact]
    public void Latency_stays_in_the_reported_range_and_falls_with_light()
    {
        var last = ReflexLatency.Longest;
        for (var luminance = 0.0001; luminance < 1e6; luminance *= 3)
        {
            var latency = ReflexLatency.For(luminance);
            Assert.InRange(latency, ReflexLatency.Shortest, last);
            last = latency;
        }

        Assert.Equal(ReflexLatency.Shortest, last);
        Assert.Equal(ReflexLatency.Longest, ReflexLatency.For(0));
    }
}
