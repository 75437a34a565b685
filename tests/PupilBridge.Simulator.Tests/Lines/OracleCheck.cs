using PupilBridge.Simulator.Oracle;

namespace PupilBridge.Simulator.Tests.Lines;

internal static class OracleCheck
{
    /// <summary>Each event is recorded once, in order and as it was, or stands in a gap that the instrument admits.</summary>
    public static void Holds(TruthList truth, PlainHost host)
    {
        foreach (var boot in truth.Boots)
        {
            var events = truth.Events.Where(e => e.Boot == boot).ToArray();
            var losses = truth.Losses.Where(l => l.Boot == boot).ToArray();
            var next = 1L;
            foreach (var (_, first, last, tick, text) in host.Recorded.Where(r => r.Boot == boot.ToString()))
            {
                Assert.Equal(next, first);
                next = last + 1;
                if (text.StartsWith("GAP", StringComparison.Ordinal))
                {
                    Assert.Contains(losses, l => l.First <= last && first <= l.Last);
                }
                else
                {
                    Assert.Equal((events[first - 1].Text, events[first - 1].Tick.Milliseconds), (text, tick));
                }
            }

            // What is missing at the end, the instrument knows to have lost when the boot ended.
            Assert.True(
                next == events.Length + 1 || losses.Any(l => l.First <= next && l.Last == events.Length),
                $"boot {boot}: recorded up to {next - 1} of {events.Length}"
            );
        }
    }
}
