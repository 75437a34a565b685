using System.Text.Json;
using Microsoft.Extensions.Logging;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// Keeps the exam log: opens it, writes what changed, and when anything is wrong with it opens it again or builds it anew
/// from the journal. Readings are never at stake: the journal holds them. Exams that are live go on while it is mended; at a start
/// they begin where it stands, and wait for it if it must be built anew first (<see cref="Start"/>).
/// </summary>
/// <remarks>One thread writes (<see cref="RunAsync"/>); any may read.</remarks>
public sealed partial class ExamLogKeeper : IDisposable
{
    /// <summary>How long changes within a step may wait to be written.</summary>
    internal static readonly TimeSpan Quiet = TimeSpan.FromSeconds(1);

    /// <summary>How long nothing must have happened before the engine's log is moved into its data file.</summary>
    internal static readonly TimeSpan Idle = TimeSpan.FromSeconds(10);

    /// <summary>How long to wait before a rebuild that failed is tried again.</summary>
    internal static readonly TimeSpan RebuildRetry = TimeSpan.FromSeconds(5);

    private readonly ExamLogPlace place;
    private readonly Signal changed = new();
    private readonly Turns stores = new();
    private readonly ReaderWriterLockSlim storeGate = new();
    private ExamLogStore? store;
    private UnwrittenChanges? unwritten;
    private volatile string? rebuildReason;
    private volatile string? trouble;
    private volatile bool isStep;
    private volatile bool isClosed;
    private bool isDisposed;

    /// <summary>Opens the exam log; whatever is wrong with it is kept for <see cref="RunAsync"/> to mend.</summary>
    /// <param name="place">Where it lies and what it is made from.</param>
    internal ExamLogKeeper(ExamLogPlace place)
    {
        this.place = place;
        try
        {
            Use(isMadeAnew: false);
            // One that was moved aside, and not deleted before the process died.
            DeleteMovedAsideIfErased();
        }
        catch (ExamLogBrokenException e)
        {
            NeedRebuild(e.Message);
        }
    }

    /// <summary>The last journal entry that the exam log holds; 0 while it is being built anew.</summary>
    public long LastApplied
    {
        get
        {
            storeGate.EnterReadLock();
            try
            {
                return store?.LastApplied ?? 0;
            }
            finally
            {
                storeGate.ExitReadLock();
            }
        }
    }

    /// <summary>Why the exam log cannot be used just now, for a person; null when all is well.</summary>
    public string? Trouble => trouble;

    /// <summary>How often it was built anew since the service started.</summary>
    public int Rebuilds { get; private set; }

    /// <summary>Where the files that were moved aside last lie; null if none were.</summary>
    public string? MovedAside { get; private set; }

    /// <summary>Reads from the exam log.</summary>
    /// <typeparam name="T">What is read.</typeparam>
    /// <param name="read">Reads at once and leaves nothing lazy behind.</param>
    /// <returns>What was read.</returns>
    /// <exception cref="ExamLogBrokenException">It is being built anew, or cannot be read; the message says so.</exception>
    public T Read<T>(Func<ExamLogStore, T> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        storeGate.EnterReadLock();
        try
        {
            return read(store ?? throw Unavailable());
        }
        catch (ExamLogBrokenException e) when (e.Trouble == ExamLogTrouble.NotAsWritten)
        {
            NeedRebuild(e.Message);
            Tell(step: true);
            throw;
        }
        finally
        {
            storeGate.ExitReadLock();
        }
    }

    /// <summary>Finds an exam in the exam log, for a person, who does not wait.</summary>
    /// <exception cref="ExamLogBrokenException">It is being built anew, or cannot be read; the message says so.</exception>
    internal Exam? Find(ExamId id)
    {
        try
        {
            return Read(log => FindIn(log, id));
        }
        catch (JsonException e)
        {
            NeedRebuild($"What the exam log holds of exam {id} cannot be read: {e.Message}");
            Tell(step: true);
            throw Unavailable();
        }
    }

    /// <summary>Finds an exam in the exam log, and waits for it while it is built anew.</summary>
    /// <exception cref="OperationCanceledException">The service stops.</exception>
    internal Exam? FindWaiting(ExamId id)
    {
        while (!isClosed)
        {
            var seen = stores.Count;
            try
            {
                return Read(log => FindIn(log, id));
            }
            catch (ExamLogBrokenException)
            {
                // Only the reducer asks like this, for an exam that ended long ago. Its answer must not depend on when it asks.
            }
            catch (JsonException e)
            {
                NeedRebuild($"What the exam log holds of exam {id} cannot be read: {e.Message}");
                Tell(step: true);
            }

            // A store that failed once answers nothing more; only the next one can.
            stores.WaitBeyond(seen);
        }

        throw new OperationCanceledException("The service stops.");
    }

    /// <summary>Waits until the exam log holds all up to an entry that was applied, and has it written at once.</summary>
    /// <param name="upTo">The entry.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="ExamLogBrokenException">It is not written in time, since it is being made anew, or cannot be written.</exception>
    public async Task WrittenAsync(long upTo, CancellationToken cancellation)
    {
        var waitedFrom = place.Time.GetTimestamp();
        while (LastApplied < upTo)
        {
            if (isClosed || place.Time.GetElapsedTime(waitedFrom) > LongestWaitForTurn)
                throw Unavailable();
            Tell(step: true);
            await Task.Delay(TimeSpan.FromMilliseconds(5), cancellation).ConfigureAwait(false);
        }
    }

    /// <summary>Says that there may be something to write.</summary>
    /// <param name="step">Whether a step ended; otherwise the changes may wait a little.</param>
    internal void Tell(bool step)
    {
        if (step)
            isStep = true;
        changed.Set();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (isDisposed)
            return;
        isDisposed = true;
        Close();
        SetStore(null);
        storeGate.Dispose();
    }

    /// <summary>Lets nobody wait any longer.</summary>
    private void Close()
    {
        isClosed = true;
        stores.Next();
    }

    private void SetStore(ExamLogStore? next)
    {
        ExamLogStore? before;
        storeGate.EnterWriteLock();
        try
        {
            before = store;
            store = next;
        }
        finally
        {
            storeGate.ExitWriteLock();
        }

        stores.Next();
        before?.Dispose();
    }

    private void NeedRebuild(string reason)
    {
        rebuildReason = reason;
        trouble = reason;
    }

    private ExamLogBrokenException Outlived() =>
        new(
            ExamLogTrouble.Damaged,
            place.DataFolder,
            "A patient was erased since the exam log was written last; it is made anew without what was erased."
        );

    private ExamLogBrokenException Unavailable() =>
        new(
            ExamLogTrouble.Damaged,
            place.DataFolder,
            "The list of earlier exams is being made anew from the journal and is not there yet; wait a moment. "
                + $"Readings are recorded meanwhile. ({trouble ?? "It is being opened."})"
        );

    [LoggerMessage(Level = LogLevel.Warning, Message = "The exam log is made anew from the journal: {Reason}")]
    private static partial void Rebuilding(ILogger logger, string reason);

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "The exam log was made anew up to entry {UpTo}; the old files are kept in {OldFiles}."
    )]
    private static partial void Rebuilt(ILogger logger, long upTo, string oldFiles);

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "The old exam log {Folder} was deleted, since it held what was erased."
    )]
    private static partial void DeletedOld(ILogger logger, string folder);

    [LoggerMessage(Level = LogLevel.Error, Message = "The exam log cannot be written: {Message}")]
    private static partial void CannotWrite(ILogger logger, string message);

    [LoggerMessage(Level = LogLevel.Error, Message = "The exam log could not be made anew: {Message}")]
    private static partial void RebuildFailed(ILogger logger, string message);

    [LoggerMessage(Level = LogLevel.Warning, Message = "The exam log is opened again: {Message}")]
    private static partial void Reopens(ILogger logger, string message);
}
