using System.Diagnostics;

namespace PupilBridge.Browser.Tests;

/// <summary>Waits for what comes about by itself, with patience for a slow and busy machine.</summary>
internal static class Eventually
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    public static Task IsSoAsync(Func<bool> isSo, string what) => IsSoAsync(() => Task.FromResult(isSo()), what);

    public static async Task IsSoAsync(Func<Task<bool>> isSo, string what)
    {
        var watch = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(watch.Elapsed < Patience, $"not so within {Patience.TotalSeconds} s: {what}");
            await Task.Delay(50);
        }
    }
}
