using System.Runtime.CompilerServices;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Lanes;

/// <summary>
/// The boards of one lane as they change: the first change after a pause at once, then no more than an eye can follow. A viewer who
/// falls behind is dropped by the live board and begins anew from the present state, without noticing more than fewer steps.
/// </summary>
internal sealed class LaneFeed(IClinicHouse house, SerialNumber serial, TimeProvider time, LaneSettings settings)
{
    /// <summary>The shortest time between two boards: 30 a second, somewhat more than live positions come.</summary>
    internal static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(33);

    private readonly LaneFollower follower = new(house, serial, settings);

    private enum News
    {
        Change,
        Dropped,
        Closed,
    }

    /// <summary>The boards, until cancelled or until the house closes.</summary>
    public async IAsyncEnumerable<LaneBoard> RunAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        LaneBoard? shown = null;
        long? shownAt = null;
        var news = News.Change;
        while (news != News.Closed)
        {
            var (snapshot, changes) = house.Watch();
            using (changes)
            {
                follower.Begin(snapshot);
                do
                {
                    await PaceAsync(shownAt, cancellation).ConfigureAwait(false);
                    Drain(changes);
                    if (follower.Board(time.GetUtcNow()) is { } board && !LaneBoards.ShowTheSame(board, shown))
                    {
                        (shown, shownAt) = (board, time.GetTimestamp());
                        yield return board;
                    }

                    news = await WaitAsync(changes, cancellation).ConfigureAwait(false);
                } while (news == News.Change);
            }
        }
    }

    private async Task PaceAsync(long? shownAt, CancellationToken cancellation)
    {
        var rest = shownAt is { } at ? Pace - time.GetElapsedTime(at) : TimeSpan.Zero;
        if (rest > TimeSpan.Zero)
        {
            await Task.Delay(rest, time, cancellation).ConfigureAwait(false);
        }
    }

    private void Drain(LiveSubscription<LiveChange> changes)
    {
        while (changes.TryRead(out var change))
        {
            follower.Take(change);
        }
    }

    /// <summary>Waits for a change that concerns this lane.</summary>
    private async Task<News> WaitAsync(LiveSubscription<LiveChange> changes, CancellationToken cancellation)
    {
        try
        {
            await foreach (var change in changes.ReadAllAsync(cancellation).ConfigureAwait(false))
            {
                if (follower.Take(change))
                {
                    return News.Change;
                }
            }

            return News.Closed;
        }
        catch (ListenerTooSlowException)
        {
            return News.Dropped;
        }
    }
}
