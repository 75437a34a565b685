using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// Writes into the journal that an exam's instrument has been silent for as long as the profile allows, so that the end of
/// the exam is a fact of the journal and not of a clock that happened to run.
/// </summary>
internal sealed class SilenceWatch(ExamTracker tracker, JournalKeeper keeper, MomentClock clock)
{
    /// <summary>How often it looks. Silences are minutes long.</summary>
    internal static readonly TimeSpan Every = TimeSpan.FromSeconds(5);

    private readonly HashSet<ExamId> told = [];

    /// <summary>Looks until stopped. Never throws.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        using var timer = new PeriodicTimer(Every, clock.Time);
        try
        {
            while (await timer.WaitForNextTickAsync(stop).ConfigureAwait(false))
                Look();
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }
    }

    internal void Look()
    {
        var book = tracker.Book;
        var now = clock.Now.At;
        told.RemoveWhere(sitting => !book.OpenExams.ContainsKey(sitting) && !book.OpenRuns.ContainsKey(sitting));
        foreach (var serial in book.SilentAt(now))
        {
            if (book.OpenSittingOf(serial) is not { } exam || !told.Add(exam.Id))
                continue;
            try
            {
                keeper.Submit(new SilenceReached { At = now, Serial = serial });
            }
            catch (Exception e) when (e is JournalException or SourceFullException)
            {
                // The disk does not take it now; the next look tries again.
                told.Remove(exam.Id);
            }
        }
    }
}
