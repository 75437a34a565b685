using System.Diagnostics;

namespace PupilBridge;

/// <summary>Waits for what comes about by itself, so patiently that a test depends on what happens and not on when.</summary>
internal static class Eventually
{
    /// <summary>How long anything is waited for on a slow and busy machine.</summary>
    public static TimeSpan Deadline { get; } = TimeSpan.FromSeconds(60);

    /// <summary>Waits until something is so.</summary>
    /// <param name="isSo">What.</param>
    /// <param name="state">What to say where it never is.</param>
    public static Task Is(Func<bool> isSo, Func<string>? state = null) => Is(() => Task.FromResult(isSo()), state);

    /// <summary>Waits until something is so that has to be asked for.</summary>
    /// <param name="isSo">What.</param>
    /// <param name="state">What to say where it never is.</param>
    public static async Task Is(Func<Task<bool>> isSo, Func<string>? state = null)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed < Deadline, $"Still not so after {Deadline.TotalSeconds} s. {state?.Invoke()}");
            await Task.Delay(5);
        }
    }
}
