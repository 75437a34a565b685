using System.Diagnostics;
using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection.Resuming;

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
    EntryIndex? index,
    LiveBoard board,
    ILogger logger
)
{
    private readonly Lock turn = new();
    private long applied;
    private volatile bool isWaiting = true;

    /// <summary>Carries out what erasures order.</summary>
    public required ErasureDuty Duty { get; init; }

    /// <summary>Notes where the exams stand.</summary>
    public required ResumeKeeper Points { get; init; }

    /// <summary>The last journal entry that exams and screens have.</summary>
    public long Applied => Interlocked.Read(ref applied);

    /// <summary>Whether the exams stand nowhere yet, because the exam log is being made anew.</summary>
    public bool IsWaiting => isWaiting;

    /// <summary>
    /// Where the exam log cannot be used at the start, lets the exams go on from the last point that was noted, so that they need not wait
    /// for it. Before the exam log is made anew: it must then come no further than they have.
    /// </summary>
    public void TryResume()
    {
        if (examLog.Start.IsCompleted)
            return;
        try
        {
            if (Points.Find() is not { } point)
                return;
            var start = new ExamLogStart(point.Position.Sequence, point.Book) { Ended = point.Ended };
            if (Duty.Settle(start))
            {
                Points.Forget();
                return;
            }

            if (!NeedsNoOlderExam(start))
                return;
            Begin(start);
            examLog.ExamsBeginAt(start);
            Resumes(logger, start.Sequence);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JournalException)
        {
            CannotResume(logger, e.Message);
        }
    }

    /// <summary>
    /// Reads what is there at the start, before anything new can come. The exams go on from where the exam log stands; if it is
    /// being made anew they go on from the last point (<see cref="TryResume"/>) or wait for it, and lines are served meanwhile. What both exam log and entry index hold is not read.
    /// </summary>
    /// <param name="known">Told of each entry that the entry index does not hold.</param>
    /// <exception cref="JournalFormatException">A newer version of the program wrote one of them.</exception>
    public void CatchUp(KnownEntries known)
    {
        var start = examLog.Start is { IsCompletedSuccessfully: true } usable ? usable.Result : null;
        if (start is not null && IsWaiting)
            Begin(start);
        var indexed = index?.Sequence ?? 0;
        var from = Math.Min(indexed, start?.Sequence ?? indexed) + 1;
        using var reader = JournalReader.Live(disk, thread.Folder, from, () => thread.Durable.Position.Sequence);
        foreach (var record in reader.ReadAll())
        {
            var entry = entries.Of(record);
            if (entry is not null && record.Sequence > indexed)
                known.Add(entry);
            if (entry is not null && record.Sequence > start?.Sequence)
                tracker.Apply(entry);
            index?.Take(record, entry?.Entry);
            known.Settle();
        }

        known.Settle();
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
                    Step(record);
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

    /// <summary>Takes the next record: the step of which following is made.</summary>
    /// <param name="record">The record after the last that was applied.</param>
    /// <returns>Whether a step of an exam ended with it.</returns>
    internal bool Step(JournalRecord record)
    {
        lock (turn)
            return Take(record);
    }

    /// <summary>Begins where the exam log stands, once it can be used; to be asked while the exams wait for it.</summary>
    /// <returns>Whether the exams stand somewhere now.</returns>
    internal bool TryBegin()
    {
        if (IsWaiting && examLog.Start is { IsCompletedSuccessfully: true } usable)
            Begin(usable.Result);
        return !IsWaiting;
    }

    /// <summary>Waits until everything that is durable now has been taken, or the time is up.</summary>
    public async Task CaughtUpAsync(TimeSpan limit)
    {
        var from = Stopwatch.GetTimestamp();
        while (Applied < thread.Durable.Position.Sequence && Stopwatch.GetElapsedTime(from) < limit)
            await Task.Delay(5).ConfigureAwait(false);
    }

    /// <summary>Waits until nothing is being applied, and goes on from another place once that stands.</summary>
    /// <param name="limit">How long to wait.</param>
    /// <param name="make">Given the last entry that was applied; says where the exams stand from then on, for the same entry.</param>
    /// <returns>Whether it was done; false if something was being applied all the time.</returns>
    public bool HoldStill(TimeSpan limit, Func<long, ExamLogStart> make)
    {
        if (!turn.TryEnter(limit))
            return false;
        try
        {
            var upTo = Applied;
            tracker.Begin(make(upTo) with { Sequence = upTo });
            return true;
        }
        finally
        {
            turn.Exit();
        }
    }

    /// <summary>
    /// Whether the entries after a point concern no exam but those that it holds. One that ended long ago would have to be waited for, and
    /// nothing is waited for at a start. They are few, so they are read twice.
    /// </summary>
    private bool NeedsNoOlderExam(ExamLogStart start)
    {
        var needsOne = false;
        var trial = new ExamTracker(_ =>
        {
            needsOne = true;
            return null;
        });
        trial.Begin(start);
        using var reader = JournalReader.Live(
            disk,
            thread.Folder,
            start.Sequence + 1,
            () => thread.Durable.Position.Sequence
        );
        foreach (var record in reader.ReadAll())
        {
            if (entries.Of(record) is { } entry)
                trial.Apply(entry);
            if (needsOne)
                return false;
        }

        return true;
    }

    private void Begin(ExamLogStart start)
    {
        tracker.Begin(start);
        Interlocked.Exchange(ref applied, start.Sequence);
        isWaiting = false;
    }

    private bool Take(JournalRecord record)
    {
        var step = false;
        var entry = entries.Of(record);
        index?.Take(record, entry?.Entry);
        if (entry is not null)
        {
            if (entry.Entry is PatientErased erased)
            {
                // The order is on disk; what it orders is done before anybody hears of it.
                Duty.CarryOut(entry.Sequence, erased);
                examLog.NeedRenewal();
                Points.Forget();
            }

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
        return step;
    }

    private void Pass(long sequence)
    {
        tracker.Unwritten.Pass(sequence);
        Interlocked.Exchange(ref applied, sequence);
    }

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "The exam log must be made anew; the exams go on from where they stood at entry {Sequence} meanwhile."
    )]
    private static partial void Resumes(ILogger logger, long sequence);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "The exams cannot go on from where they stood and wait for the exam log: {Message}"
    )]
    private static partial void CannotResume(ILogger logger, string message);

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "The journal cannot be followed beyond entry {Applied}: {Message} Recording goes on; exams and screens stand still."
    )]
    private static partial void CannotFollow(ILogger logger, long applied, string message);
}
