using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <content>Building the exam log anew, beside whatever lies there.</content>
public sealed partial class ExamLogKeeper
{
    /// <summary>How many changed exams are written at once during a rebuild.</summary>
    private const int RebuildBatch = 256;

    private long lastWritten;

    /// <summary>Builds the exam log anew if it must be.</summary>
    /// <returns>Whether the exam log can be used now.</returns>
    private async Task<bool> MendAsync(CancellationToken stop)
    {
        if (rebuildReason is not { } reason)
            return true;
        try
        {
            Rebuild(reason, stop);
            return true;
        }
        catch (Exception e) when (e is ExamLogBrokenException or IOException or UnauthorizedAccessException)
        {
            RebuildFailed(place.Logger, e.Message);
            trouble = e.Message;
            await Task.Delay(RebuildRetry, place.Time, stop).ConfigureAwait(false);
            return false;
        }
    }

    private void Rebuild(string reason, CancellationToken stop)
    {
        Rebuilding(place.Logger, reason);
        ExamLogRebuilt built;
        using (var rebuilder = ExamLogRebuilder.Begin(place.DataFolder, place.Options))
        {
            Fill(rebuilder.Store, place.Journal(), stop);
            built = rebuilder.Finish(reason);
        }

        var next = ExamLogStore.Open(place.DataFolder, place.Options);
        lastWritten = next.LastApplied;
        SetStore(next);
        Rebuilds++;
        MovedAside = built.OldFiles ?? MovedAside;
        rebuildReason = null;
        trouble = null;
        Rebuilt(place.Logger, built.LastApplied, built.OldFiles ?? "(there were none)");
        changed.Set();
    }

    /// <summary>Applies a whole journal to an empty exam log.</summary>
    internal static void Fill(ExamLogStore log, IEnumerable<SequencedEntry> journal, CancellationToken stop)
    {
        var tracker = new ExamTracker(id => FindIn(log, id));
        foreach (var entry in journal)
        {
            stop.ThrowIfCancellationRequested();
            tracker.Apply(entry, isWritten: false);
            if (tracker.Unwritten.DocumentCount >= RebuildBatch)
                Write(log, tracker);
        }

        if (tracker.Unwritten.UpTo > 0)
            Write(log, tracker);
    }

    private static Exam? FindIn(ExamLogStore log, ExamId id) =>
        log.FindExam(ExamDocuments.IdOf(id)) is { } found ? ExamDocuments.Read(found) : null;

    /// <summary>Writes what a tracker has gathered.</summary>
    internal static void Write(ExamLogStore log, ExamTracker tracker)
    {
        var batch = tracker.Unwritten.Take();
        log.Apply(batch.UpTo, batch.ToChanges());
        tracker.Unwritten.Written(batch);
    }
}
