namespace PupilBridge.Ports.Tests;

/// <summary>Paths for links to pseudo-terminals, one per test.</summary>
internal static class TestLinks
{
    private static int count;

    internal static string Next() =>
        Path.Combine(
            Path.GetTempPath(),
            $"pupilbridge-ports-{Environment.ProcessId}",
            $"tty-{Interlocked.Increment(ref count)}"
        );
}
