using PupilBridge.ExamLog;

namespace PupilBridge.Worker.Projection;

/// <content>
/// Making the exam log and the live exams anew after a patient was erased. Neither is ever carried over an erasure: the old one is read
/// until the new one stands, is written to no more meanwhile, and is deleted with all that was moved aside before.
/// </content>
public sealed partial class ExamLogKeeper
{
    private const string WhyRenewed = "a patient was erased";
    private static readonly TimeSpan LongestWaitForTurn = TimeSpan.FromSeconds(10);

    private readonly Lock renewing = new();
    private TaskCompletionSource? renewal;
    private JournalFollower? follower;
    private long erasures;

    /// <summary>Done when no erasure waits for the exam log to be made anew; cancelled if the service stops before.</summary>
    public Task Renewed
    {
        get
        {
            lock (renewing)
                return renewal?.Task ?? Task.CompletedTask;
        }
    }

    /// <summary>Says who follows the journal, so that it can be held still for the moment in which a new exam log is put in place.</summary>
    internal void FollowedBy(JournalFollower one) => follower = one;

    /// <summary>A patient was erased: from here on nothing is written to the exam log until it has been made anew.</summary>
    internal void NeedRenewal()
    {
        lock (renewing)
        {
            erasures++;
            if (renewal is null or { Task.IsCompleted: true })
                renewal = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        Tell(step: true);
    }

    private bool IsRenewalDue => !Renewed.IsCompleted;

    private long Erasures
    {
        get
        {
            lock (renewing)
                return erasures;
        }
    }

    /// <summary>Whether an erasure came that the exam log has not been made anew for; it also holds while the service stops.</summary>
    private bool HasOutlived => !Renewed.IsCompletedSuccessfully;

    /// <summary>Makes the exam log anew beside the one that is read, and puts it and the exams that follow from it in place.</summary>
    /// <returns>Whether no erasure waits for that any more; if one does, it is to be tried again after a while.</returns>
    internal bool TryRenew(CancellationToken stop)
    {
        if (!IsRenewalDue || follower is not { } following)
            return true;
        Rebuilding(place.Logger, WhyRenewed);
        try
        {
            if (Renew(following, stop))
                return true;
        }
        catch (ExamLogBrokenException e)
        {
            NeedRebuild(e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            RebuildFailed(place.Logger, e.Message);
        }

        return false;
    }

    private bool Renew(JournalFollower following, CancellationToken stop)
    {
        // Of an erasure that comes from here on, some of what it erased may be in the new one already: it takes a turn of its own.
        var known = Erasures;
        place.Settle?.Invoke(null);
        using var rebuilder = ExamLogRebuilder.Begin(place.DataFolder, place.Options);
        var tracker = new ExamTracker(id => FindIn(rebuilder.Store, id));
        var upTo = unwritten!.UpTo;
        Fill(rebuilder.Store, tracker, place.JournalFrom(1).TakeWhile(entry => entry.Sequence.Value <= upTo), stop);
        var isInPlace = following.HoldStill(
            LongestWaitForTurn,
            applied =>
            {
                var rest = place.JournalFrom(upTo + 1).TakeWhile(entry => entry.Sequence.Value <= applied);
                Fill(rebuilder.Store, tracker, rest, stop);
                SetStore(null);
                var built = rebuilder.Finish(WhyRenewed);
                DeleteMovedAside();
                var stands = Use(isMadeAnew: true);
                Rebuilt(place.Logger, built.LastApplied, "nowhere, since they held what was erased");
                return stands;
            }
        );
        if (!isInPlace)
            return false;
        Rebuilds++;
        lock (renewing)
        {
            if (erasures == known)
                renewal?.TrySetResult();
        }

        Tell(step: true);
        return true;
    }

    private bool DeleteMovedAsideIfErased()
    {
        if (place.HasErased?.Invoke() != true)
            return false;
        DeleteMovedAside();
        return true;
    }

    /// <summary>Once a patient was erased no older exam log is kept: it holds what was erased.</summary>
    private void DeleteMovedAside()
    {
        foreach (var folder in ExamLogStore.DeleteMovedAside(place.DataFolder))
            DeletedOld(place.Logger, folder);
        MovedAside = null;
    }
}
