namespace PupilBridge.Simulator.Faults;

/// <summary>Stretches of time, from a seed, in which something is wrong.</summary>
/// <param name="meanPause">Mean time between the end of one and the start of the next; evenly spread from half to one and a half of it.</param>
/// <param name="length">How long each lasts.</param>
/// <param name="chance">Its chance.</param>
public sealed class Episodes(TimeSpan meanPause, TimeSpan length, Chance chance)
{
    private TimeSpan? start;

    /// <summary>Whether an episode is on.</summary>
    /// <param name="now">The time, never less than at the call before.</param>
    /// <returns>True within an episode.</returns>
    public bool IsOn(TimeSpan now)
    {
        start ??= now + Pause();
        while (now >= start + length)
        {
            start += length + Pause();
        }

        return now >= start;
    }

    private TimeSpan Pause() => meanPause * chance.NextBetween(0.5, 1.5);
}
