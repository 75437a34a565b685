using System.Text.Json;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <content>Building the exam log anew, beside whatever lies there.</content>
public sealed partial class ExamLogKeeper
{
    /// <summary>How many changed exams are written at once during a rebuild.</summary>
    private const int RebuildBatch = 256;

    private readonly TaskCompletionSource<ExamLogStart> start = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long lastWritten;
    private volatile Wish? wish;

    /// <summary>
    /// Builds the exam log anew although nothing is known to be wrong with it, beside everything that goes on; live exams are
    /// served meanwhile, earlier ones when it is done.
    /// </summary>
    /// <param name="reason">Why, for the note beside the old files.</param>
    /// <param name="cancellation">Gives up waiting; the exam log is built anew all the same.</param>
    /// <returns>What was made, and where the old files lie.</returns>
    /// <exception cref="OperationCanceledException">The waiting was given up, or the service stops.</exception>
    public Task<ExamLogRebuilt> RebuildAsync(string reason, CancellationToken cancellation)
    {
        var wished = new Wish(reason);
        while (Interlocked.CompareExchange(ref wish, wished, null) is { } other)
        {
            // Two who wish for it at once get the same one.
            if (!other.Done.Task.IsCompleted)
                return other.Done.Task.WaitAsync(cancellation);
        }

        Tell(step: true);
        return wished.Done.Task.WaitAsync(cancellation);
    }

    /// <summary>Where the exams begin: where the exam log stands once it can be used. Done at once if nothing is wrong with it.</summary>
    internal Task<ExamLogStart> Start => start.Task;

    /// <summary>Says where the exams begin although the exam log cannot be used yet; it is then made anew up to where they stand.</summary>
    internal void ExamsBeginAt(ExamLogStart resumed) => start.TrySetResult(resumed);

    /// <summary>Builds the exam log anew if it must be.</summary>
    /// <returns>Whether the exam log can be used now; if not, it is to be tried again after a while.</returns>
    internal bool TryMend(CancellationToken stop)
    {
        if (wish is { } wished)
            NeedRebuild(wished.Reason);

        if (rebuildReason is not { } reason)
            return true;
        // What is moved aside must be closed by then.
        SetStore(null);
        try
        {
            var built = Rebuild(reason, stop);
            if (Interlocked.Exchange(ref wish, null) is { } fulfilled)
                fulfilled.Done.TrySetResult(built);
            return true;
        }
        catch (Exception e) when (e is ExamLogBrokenException or IOException or UnauthorizedAccessException)
        {
            RebuildFailed(place.Logger, e.Message);
            trouble = e.Message;
            return false;
        }
    }

    private ExamLogRebuilt Rebuild(string reason, CancellationToken stop)
    {
        Rebuilding(place.Logger, reason);
        place.Settle?.Invoke(null);
        // Never beyond where the exams stand: the reducer must not meet an exam as it became later.
        var limit = start.Task.IsCompleted ? unwritten!.UpTo : long.MaxValue;
        ExamLogRebuilt built;
        using (var rebuilder = ExamLogRebuilder.Begin(place.DataFolder, place.Options))
        {
            Fill(rebuilder.Store, place.JournalFrom(1).TakeWhile(entry => entry.Sequence.Value <= limit), stop);
            built = rebuilder.Finish(reason);
        }

        Use(isMadeAnew: true);
        Rebuilds++;
        MovedAside = built.OldFiles ?? MovedAside;
        if (DeleteMovedAsideIfErased())
            built = built with { OldFiles = null };
        // Whoever found fault with the new one meanwhile waits for the next.
        if (ReferenceEquals(Interlocked.CompareExchange(ref rebuildReason, null, reason), reason))
            trouble = null;
        Rebuilt(place.Logger, built.LastApplied, built.OldFiles ?? "(there were none)");
        changed.Set();
        return built;
    }

    private sealed record Wish(string Reason)
    {
        public TaskCompletionSource<ExamLogRebuilt> Done { get; } =
            new(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    /// <summary>Applies a whole journal to an empty exam log.</summary>
    internal static void Fill(ExamLogStore log, IEnumerable<SequencedEntry> journal, CancellationToken stop) =>
        Fill(log, new ExamTracker(id => FindIn(log, id)), journal, stop);

    /// <summary>Applies what follows in a journal to an exam log that is being made.</summary>
    private static void Fill(
        ExamLogStore log,
        ExamTracker tracker,
        IEnumerable<SequencedEntry> journal,
        CancellationToken stop
    )
    {
        foreach (var entry in journal)
        {
            stop.ThrowIfCancellationRequested();
            tracker.Apply(entry);
            if (tracker.Unwritten.DocumentCount >= RebuildBatch)
                Write(log, tracker);
        }

        if (tracker.Unwritten.UpTo > log.LastApplied)
            Write(log, tracker);
    }

    /// <summary>The reducer's book at the place where an exam log stands.</summary>
    /// <exception cref="ExamLogBrokenException">What it carries is no book.</exception>
    internal static ExamBook BookOf(ExamLogStore log)
    {
        try
        {
            return BookDocument.Read(log.LastApplied, log.Carry, id => FindIn(log, id));
        }
        catch (JsonException e)
        {
            throw new ExamLogBrokenException(
                ExamLogTrouble.Damaged,
                log.Folder,
                $"The exam log in {log.Folder} does not say where it stands ({e.Message}). No reading is lost, the journal holds them "
                    + "all. Start the service, which makes the exam log anew, or run 'pupilbridge journal rebuild'.",
                e
            );
        }
    }

    /// <summary>Opens the exam log and takes it into use; the first one says where the exams begin.</summary>
    /// <exception cref="ExamLogBrokenException">It cannot be used.</exception>
    private ExamLogStart Use(bool isMadeAnew)
    {
        var next = ExamLogStore.Open(place.DataFolder, place.Options);
        try
        {
            var book = BookOf(next);
            if (!isMadeAnew && place.Settle?.Invoke(new ExamLogStart(next.LastApplied, book)) == true)
                throw Outlived();
            lastWritten = next.LastApplied;
            SetStore(next);
            var stands = new ExamLogStart(lastWritten, book);
            start.TrySetResult(stands);
            return stands;
        }
        catch
        {
            next.Dispose();
            throw;
        }
    }

    /// <summary>Finds an exam or a bench run in an exam log.</summary>
    internal static Exam? FindIn(ExamLogStore log, ExamId id) =>
        log.FindExam(ExamDocuments.IdOf(id)) is { } found ? ExamDocuments.Read(found) : BenchDocuments.Find(log, id);

    /// <summary>Writes what a tracker has gathered.</summary>
    internal static void Write(ExamLogStore log, ExamTracker tracker)
    {
        var batch = tracker.Unwritten.Take();
        log.Apply(batch.UpTo, batch.ToChanges());
        tracker.Unwritten.Written(batch);
    }
}
