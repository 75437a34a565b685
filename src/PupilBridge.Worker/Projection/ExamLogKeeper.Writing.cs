using PupilBridge.ExamLog;

namespace PupilBridge.Worker.Projection;

/// <content>The loop that writes.</content>
public sealed partial class ExamLogKeeper
{
    /// <summary>How often in a row what changed could not be written.</summary>
    private int failedWrites;

    /// <summary>Writes what changes until stopped; then writes the rest and closes. Never throws.</summary>
    /// <param name="changes">What is to be written.</param>
    /// <param name="stop">Stops.</param>
    internal async Task RunAsync(UnwrittenChanges changes, CancellationToken stop)
    {
        Follow(changes);
        while (!stop.IsCancellationRequested)
        {
            try
            {
                if (!TryMend(stop))
                {
                    await Task.Delay(RebuildRetry, place.Time, stop).ConfigureAwait(false);
                    continue;
                }

                if (!TryRenew(stop))
                {
                    await Task.Delay(RebuildRetry, place.Time, stop).ConfigureAwait(false);
                    Tell(step: true);
                }

                await WaitForWorkAsync(stop).ConfigureAwait(false);
                WriteAll();
                // Once may be chance, and is tried again at once. A full disk stays full for a while.
                if (failedWrites > 1)
                    await Task.Delay(RebuildRetry, place.Time, stop).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                // Stopped: what is left is written below.
            }
            catch (Exception e)
            {
                // A fault of ours must not end the loop for good and unsaid: nothing is lost by trying again.
                CannotWrite(place.Logger, e.Message);
                trouble =
                    $"The exam log cannot be written: {e.Message} No reading is lost, the journal holds them all.";
                await Task.Delay(RebuildRetry, place.Time, CancellationToken.None).ConfigureAwait(false);
            }
        }

        Finish();
    }

    /// <summary>Says what is to be written from now on.</summary>
    internal void Follow(UnwrittenChanges changes) => unwritten = changes;

    /// <summary>Writes what is left, and closes.</summary>
    internal void Finish()
    {
        Close();
        wish?.Done.TrySetCanceled(CancellationToken.None);
        lock (renewing)
            renewal?.TrySetCanceled(CancellationToken.None);
        WriteAll();
        SetStore(null);
    }

    /// <summary>Waits until a step has ended, or changes have lain for a while; tidies up when nothing comes for long.</summary>
    private async Task WaitForWorkAsync(CancellationToken stop)
    {
        if (!await changed.WaitAsync(Idle, place.Time, stop).ConfigureAwait(false))
        {
            Checkpoint();
            await changed.WaitAsync(Timeout.InfiniteTimeSpan, place.Time, stop).ConfigureAwait(false);
        }

        var waitedFrom = place.Time.GetTimestamp();
        while (!isStep && place.Time.GetElapsedTime(waitedFrom) < Quiet)
            await changed.WaitAsync(Quiet, place.Time, stop).ConfigureAwait(false);
        isStep = false;
    }

    /// <summary>Writes what changed, if the exam log can take it.</summary>
    internal void WriteAll()
    {
        if (unwritten is not { } changes || store is not { } log || changes.UpTo <= lastWritten || HasOutlived)
            return;
        var batch = changes.Take();
        // An erasure may have come between the two looks; it says so before it is applied.
        if (HasOutlived)
            return;
        try
        {
            log.Apply(batch.UpTo, batch.ToChanges());
            changes.Written(batch);
            lastWritten = batch.UpTo;
            if (failedWrites > 0)
                trouble = rebuildReason;
            failedWrites = 0;
        }
        catch (ExamLogBrokenException e)
        {
            failedWrites++;
            Reopen(e);
        }
    }

    private void Checkpoint()
    {
        try
        {
            store?.CheckpointIfNeeded();
        }
        catch (ExamLogBrokenException e)
        {
            Reopen(e);
        }
    }

    /// <summary>After any failure: close, open again, go on from what it holds; what was not written is still here.</summary>
    private void Reopen(ExamLogBrokenException failure)
    {
        Reopens(place.Logger, failure.Message);
        SetStore(null);
        if (failure.Trouble == ExamLogTrouble.NotAsWritten)
        {
            NeedRebuild(failure.Message);
            return;
        }

        try
        {
            var next = ExamLogStore.Open(place.DataFolder, place.Options);
            if (next.LastApplied < lastWritten)
            {
                next.Dispose();
                NeedRebuild($"The exam log had lost what was written to it. {failure.Message}");
                return;
            }

            SetStore(next);
            // Until something could be written again, nobody is told that all is well.
            trouble = failedWrites > 0 ? failure.Message : null;
            changed.Set();
        }
        catch (ExamLogBrokenException e)
        {
            NeedRebuild(e.Message);
        }
    }
}
