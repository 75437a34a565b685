using Microsoft.Extensions.Logging;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Projection.Resuming;

/// <summary>
/// Writes from time to time where the exams stand, so that after a power loss, when the exam log must be made anew and that takes long,
/// lanes are served at once: the exams go on from the last point and the few entries after it.
/// </summary>
/// <param name="folder">Where the points lie.</param>
/// <param name="tracker">The exams.</param>
/// <param name="hashAt">The chain's value at an entry of the journal; null where there is none.</param>
/// <param name="isErasing">Whether the exams still hold what an erasure has ordered to go.</param>
/// <param name="time">The clock for waiting.</param>
/// <param name="logger">Where the service tells what it does.</param>
internal sealed partial class ResumeKeeper(
    ResumeFolder folder,
    ExamTracker tracker,
    Func<long, ChainHash?> hashAt,
    Func<bool> isErasing,
    TimeProvider time,
    ILogger logger
)
{
    /// <summary>How often a point is written while there is something new: so much of the journal is applied anew at most.</summary>
    internal static readonly TimeSpan Every = TimeSpan.FromSeconds(20);

    private readonly Lock turn = new();
    private long saved;
    private bool isTold;

    /// <summary>The latest point that belongs to this journal.</summary>
    public ResumePoint? Find() =>
        folder.Load().FirstOrDefault(point => hashAt(point.Position.Sequence) == point.Position.Hash);

    /// <summary>Deletes the points, which hold what was erased.</summary>
    /// <exception cref="IOException">They could not be deleted; it is to be tried again.</exception>
    public void Forget()
    {
        lock (turn)
        {
            folder.Clear();
            saved = 0;
        }
    }

    /// <summary>Writes points until stopped, and one at the end. Never throws.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await Task.Delay(Every, time, stop).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                // Stopped: the last one is written.
            }

            Save();
        }
    }

    /// <summary>Writes where the exams stand now, if that is new.</summary>
    public void Save()
    {
        lock (turn)
        {
            var (book, ended) = tracker.Look();
            var sequence = book.LastApplied.Value;
            if (sequence <= saved || isErasing())
                return;
            try
            {
                if (hashAt(sequence) is not { } hash)
                    return;
                folder.Save(new ResumePoint(new(sequence, hash), book, ended));
                saved = sequence;
                isTold = false;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or JournalException)
            {
                if (!isTold)
                    CannotSave(logger, e.Message);
                isTold = true;
            }
        }
    }

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "Where the exams stand could not be noted: {Message} After a power loss they would wait for the exam log."
    )]
    private static partial void CannotSave(ILogger logger, string message);
}
