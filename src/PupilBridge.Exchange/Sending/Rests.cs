namespace PupilBridge.Exchange.Sending;

/// <summary>
/// Who waits, and how long: one patient where only that record cannot pass, everybody where the server is away. Used by one thread.
/// </summary>
internal sealed class Rests(RetryTiming timing, TimeProvider time, Func<double> chance)
{
    private static readonly TimeSpan LongestWish = TimeSpan.FromHours(1);

    private readonly Dictionary<string, Rest> lanes = new(StringComparer.Ordinal);
    private Rest server;

    /// <summary>Until when everybody waits; null if nobody has to.</summary>
    public DateTimeOffset? OfServer() => server.Until > time.GetUtcNow() ? server.Until : null;

    /// <summary>Whether one patient waits.</summary>
    public bool IsResting(string lane) => lanes.TryGetValue(lane, out var rest) && rest.Until > time.GetUtcNow();

    /// <summary>How many tries in a row came to nothing.</summary>
    public int TriesOf(string lane) => lanes.GetValueOrDefault(lane).Tries;

    /// <summary>A patient's version is done with.</summary>
    /// <param name="lane">The patient.</param>
    /// <param name="hasAnswered">Whether the server answered, so that nobody waits for it any more.</param>
    public void Passed(string lane, bool hasAnswered)
    {
        lanes.Remove(lane);
        server = hasAnswered ? default : server;
    }

    /// <summary>Something did not pass.</summary>
    public void Failed(string lane, TryLaterException later)
    {
        var before = lanes.GetValueOrDefault(lane);
        if (!later.IsServer)
        {
            lanes[lane] = After(before, later.RetryAfter);
            return;
        }

        lanes[lane] = before with { Tries = before.Tries + 1 };
        // Several that were under way together are one failure of the server.
        if (OfServer() is null)
        {
            server = After(server, later.RetryAfter);
        }
    }

    private Rest After(Rest before, TimeSpan? wish)
    {
        var wait = timing.After(before.Tries, chance());
        if (wish is { } asked && asked > wait)
        {
            wait = asked < LongestWish ? asked : LongestWish;
        }

        return new Rest(before.Tries + 1, time.GetUtcNow() + wait);
    }

    private readonly record struct Rest(int Tries, DateTimeOffset Until);
}
