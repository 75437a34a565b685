using System.Diagnostics;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>Waits for a condition with a generous deadline, so that a test depends on what happens and not on when.</summary>
internal static class Eventually
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(60);

    public static async Task Is(Func<bool> condition, Func<string>? state = null)
    {
        var watch = Stopwatch.StartNew();
        while (!condition())
        {
            if (watch.Elapsed > Deadline)
            {
                Assert.Fail($"Still not so after {Deadline.TotalSeconds} s. {state?.Invoke()}");
            }

            await Task.Delay(10);
        }
    }
}
