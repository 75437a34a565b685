using System.Diagnostics;
using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// Follows the journal: each entry, once it is on disk, goes to the reducer, to the screens and to the exam log. It reads
/// behind the writer and delays nobody; if it falls behind, the journal keeps what is still to come.
/// </summary>
internal sealed partial class JournalFollower(
    JournalThread thread,
    IJournalDisk disk,
    JournalEntries entries,
    ExamTracker tracker,
    ExamLogKeeper examLog,
    LiveBoard board,
    ILogger logger
)
{
    private long applied;
    private volatile bool isWaiting = true;

    /// <summary>The last journal entry that exams and screens have.</summary>
    public long Applied => Interlocked.Read(ref applied);

    /// <summary>Whether the exams stand nowhere yet, because the exam log is being made anew.</summary>
    public bool IsWaiting => isWaiting;

    /// <summary>
    /// Reads what is there at the start, before anything new can come. The exams go on from where the exam log stands; if it is
    /// being made anew they wait for it, and lines are served meanwhile.
    /// </summary>
    /// <param name="also">Told of each entry as well.</param>
    /// <exception cref="JournalFormatException">A newer version of the program wrote one of them.</exception>
    public void CatchUp(Action<SequencedEntry> also)
    {
        var start = examLog.Start is { IsCompletedSuccessfully: true } usable ? usable.Result : null;
        if (start is not null)
            Begin(start);
        using var reader = JournalReader.Live(disk, thread.Folder, 1, () => thread.Durable.Position.Sequence);
        foreach (var entry in entries.Of(reader))
        {
            also(entry);
            if (entry.Sequence.Value > start?.Sequence)
                tracker.Apply(entry);
        }

        if (start is not null)
            Pass(thread.Durable.Position.Sequence);
    }

    /// <summary>Follows until stopped. Never throws.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                if (IsWaiting)
                    Begin(await examLog.Start.WaitAsync(stop).ConfigureAwait(false));
                await foreach (var record in thread.FollowAsync(disk, Applied + 1, stop).ConfigureAwait(false))
                    Take(record);
            }
            catch (OperationCanceledException)
            {
                // Stopped.
            }
            catch (Exception e)
            {
                // Whatever it is: the journal holds every entry, and following it again begins with the one that failed.
                CannotFollow(logger, Applied, e.Message);
                await Task.Delay(TimeSpan.FromSeconds(1), CancellationToken.None).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Waits until everything that is durable now has been taken, or the time is up.</summary>
    public async Task CaughtUpAsync(TimeSpan limit)
    {
        var from = Stopwatch.GetTimestamp();
        while (Applied < thread.Durable.Position.Sequence && Stopwatch.GetElapsedTime(from) < limit)
            await Task.Delay(5).ConfigureAwait(false);
    }

    private void Begin(ExamLogStart start)
    {
        tracker.Begin(start.Sequence, start.Book);
        Interlocked.Exchange(ref applied, start.Sequence);
        isWaiting = false;
    }

    private void Take(JournalRecord record)
    {
        var step = false;
        if (entries.Of(record) is { } entry)
        {
            var changes = tracker.Apply(entry);
            step = StepBoundary.Is(entry.Entry, changes);
            board.Tell(new LiveChange.EntryRecorded(entry));
            foreach (var exam in changes.OfType<ExamChanged>())
                board.Tell(new LiveChange.ExamChanged(exam.Exam, exam.IsNew, exam.IsOver));
            foreach (var run in changes.OfType<BenchRunChanged>())
                board.Tell(new LiveChange.RunChanged(run.Run, run.IsNew, run.IsOver));
        }

        Pass(record.Sequence);
        examLog.Tell(step);
    }

    private void Pass(long sequence)
    {
        tracker.Unwritten.Pass(sequence);
        Interlocked.Exchange(ref applied, sequence);
    }

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "The journal cannot be followed beyond entry {Applied}: {Message} Recording goes on; exams and screens stand still."
    )]
    private static partial void CannotFollow(ILogger logger, long applied, string message);
}
