using System.Runtime.CompilerServices;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Lanes as a session sees them: while the instrument speaks, the session goes on, since the examiner's hands are at the instrument;
/// and when the session is over, so is the stream.
/// </summary>
internal sealed class WatchedLanes(ILaneDesk lanes, SessionBook book, Session session) : ILaneDesk
{
    /// <inheritdoc/>
    public Task<LaneBoard?> LookAtLaneAsync(string instrument, CancellationToken cancellationToken) =>
        lanes.LookAtLaneAsync(instrument, cancellationToken);

    /// <inheritdoc/>
    public Task<EntryOutcome> EnterAsync(DeskEntry entry, CancellationToken cancellationToken) =>
        lanes.EnterAsync(entry, cancellationToken);

    /// <inheritdoc/>
    public Task<SwitchOffOutcome> SwitchOffAsync(string instrument, string who, CancellationToken cancellationToken) =>
        lanes.SwitchOffAsync(instrument, who, cancellationToken);

    /// <inheritdoc/>
    public IAsyncEnumerable<LaneBoard> WatchLaneAsync(string instrument, CancellationToken cancellationToken) =>
        // Asked here and now, so that a refusal comes before the stream begins.
        WatchAsync(lanes.WatchLaneAsync(instrument, cancellationToken), cancellationToken);

    private async IAsyncEnumerable<LaneBoard> WatchAsync(
        IAsyncEnumerable<LaneBoard> watched,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancellation, session.Over);
        LaneBoard? before = null;
        var boards = watched.GetAsyncEnumerator(either.Token);
        await using (boards.ConfigureAwait(false))
        {
            while (await NextAsync(boards, cancellation).ConfigureAwait(false))
            {
                if (before is not null && Speaks(before, boards.Current))
                {
                    book.Touch(session);
                }

                yield return before = boards.Current;
            }
        }
    }

    private async Task<bool> NextAsync(IAsyncEnumerator<LaneBoard> boards, CancellationToken cancellation)
    {
        try
        {
            return await boards.MoveNextAsync().ConfigureAwait(false);
        }
        catch (OperationCanceledException)
            when (session.Over.IsCancellationRequested && !cancellation.IsCancellationRequested)
        {
            return false;
        }
    }

    /// <summary>Whether the instrument did something between two boards: an event came, or a scale moves.</summary>
    private static bool Speaks(LaneBoard before, LaneBoard now) =>
        before.ReceivedEvents != now.ReceivedEvents
        || before.Right.PositionMicrometres != now.Right.PositionMicrometres
        || before.Left.PositionMicrometres != now.Left.PositionMicrometres;
}
