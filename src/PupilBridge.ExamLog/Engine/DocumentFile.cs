using LiteDB;
using LiteDB.Engine;

namespace PupilBridge.ExamLog;

/// <summary>
/// The engine's files, opened the one way that was found to hold (docs/exam-log.md): directly, without a password, without
/// checkpoints of the engine's own choosing, and with every failure of engine or disk turned into one kind of exception, after
/// which nothing more is asked of this instance.
/// </summary>
internal sealed class DocumentFile : IDisposable
{
    private readonly ExamLogFolder folder;
    private readonly LiteDatabase database;
    private readonly PageSums sums;
    private readonly LogSums logSums;
    private readonly IReadOnlyList<Stream> streams;
    private readonly Lock writing = new();
    private volatile ExamLogBrokenException? broken;
    private bool disposed;

    private DocumentFile(
        ExamLogFolder folder,
        LiteDatabase database,
        PageSums sums,
        LogSums logSums,
        IReadOnlyList<Stream> streams
    )
    {
        this.streams = streams;
        this.folder = folder;
        this.database = database;
        this.sums = sums;
        this.logSums = logSums;
    }

    /// <summary>Whether a failure has ended the use of this instance.</summary>
    public bool IsBroken => broken is not null;

    /// <summary>Opens the files, or makes them.</summary>
    /// <exception cref="ExamLogBrokenException">They cannot be opened.</exception>
    public static DocumentFile Open(ExamLogFolder folder)
    {
        LiteDatabase? database = null;
        var streams = new List<Stream>();
        try
        {
            // The log first: what is torn at its end is gone before its pages are looked at.
            var logSums = LogSums.Open(folder);
            var sums = PageSums.Open(folder);
            var isNew = !File.Exists(folder.DataFile);
            var data = new CheckedDataFile(folder, sums);
            streams.Add(data);
            var log = new PageFile(folder.LogFile, EngineFile.Log, folder.Pages);
            streams.Add(log);
            database = new LiteDatabase(
                new LiteEngine(
                    new EngineSettings
                    {
                        DataStream = data,
                        LogStream = log,
                        Collation = Collation.Binary,
                    }
                )
            );
            if (isNew)
            {
                sums.Begin();
            }

            SetPragmas(database);
            return new DocumentFile(folder, database, sums, logSums, streams);
        }
        catch (Exception e) when (e is not ExamLogBrokenException)
        {
            DisposeQuietly(database, streams);
            throw ExamLogBrokenException.Damaged(folder.DataFile, $"it cannot be opened ({e.Message}).", e);
        }
    }

    /// <summary>Runs a short piece of reading. Whatever it returns must be complete: nothing lazy leaves.</summary>
    /// <exception cref="ExamLogBrokenException">Engine or disk failed, now or earlier.</exception>
    public T Read<T>(string what, Func<LiteDatabase, T> work) => Guard(what, work);

    /// <summary>Runs writing as one transaction on the calling thread: all of it happens or nothing.</summary>
    /// <exception cref="ExamLogBrokenException">Engine or disk failed, now or earlier.</exception>
    public void Write(string what, Action<LiteDatabase> work)
    {
        lock (writing)
        {
            Guard(
                what,
                db =>
                {
                    if (!db.BeginTrans())
                    {
                        throw new InvalidOperationException("a transaction of this thread was left open");
                    }

                    work(db);
                    if (!db.Commit())
                    {
                        throw new IOException("the engine did not commit");
                    }

                    logSums.Note();
                    return true;
                }
            );
        }
    }

    /// <summary>Runs a piece of work between two transactions, so that what it reads in several steps belongs together.</summary>
    public T WhileNobodyWrites<T>(Func<T> work)
    {
        lock (writing)
        {
            return work();
        }
    }

    /// <summary>The engine's log in bytes.</summary>
    public long LogBytes
    {
        get
        {
            var file = new FileInfo(folder.LogFile);
            return file.Exists ? file.Length : 0;
        }
    }

    /// <summary>
    /// Moves the log into the data file. The log is synced first: a power loss in the middle then finds either the old data file
    /// with a whole log, or the new data file.
    /// </summary>
    /// <exception cref="ExamLogBrokenException">Engine or disk failed, now or earlier.</exception>
    public void Checkpoint()
    {
        lock (writing)
        {
            Guard(
                "moving the engine's log into the data file",
                db =>
                {
                    FileSync.TrySync(folder.LogFile);
                    sums.Around(() => db.Checkpoint());
                    logSums.Note();
                    return true;
                }
            );
        }
    }

    /// <summary>Makes data file and sums durable, after <see cref="Dispose"/>.</summary>
    /// <returns>False where the system refuses.</returns>
    public bool TrySync() => FileSync.TrySync(folder.DataFile) && sums.TrySync();

    /// <summary>Takes note that what was read cannot be right.</summary>
    public ExamLogBrokenException Break(string what, Exception? inner = null)
    {
        var trouble = inner is null or InvalidDataException ? ExamLogTrouble.NotAsWritten : ExamLogTrouble.Damaged;
        var failure =
            inner as ExamLogBrokenException ?? ExamLogBrokenException.Of(trouble, folder.DataFile, what, inner);
        broken ??= failure;
        return failure;
    }

    /// <summary>Closes the files. It does not checkpoint and never throws: a broken engine must be possible to leave.</summary>
    public void Dispose()
    {
        if (!disposed)
        {
            disposed = true;
            DisposeQuietly(database, streams);
        }
    }

    private T Guard<T>(string what, Func<LiteDatabase, T> work)
    {
        ObjectDisposedException.ThrowIf(disposed, this);
        if (broken is { } earlier)
        {
            throw new ExamLogBrokenException(earlier.Trouble, earlier.Path, earlier.Message, earlier);
        }

        try
        {
            return work(database);
        }
        catch (Exception e)
        {
            // A failed write may have been committed and a failed engine may be half closed: no kind of failure is safe to go on
            // from, so there is one answer to all of them.
            throw Break($"{what} failed ({e.Message}).", e);
        }
    }

    private static void SetPragmas(LiteDatabase database)
    {
        if (database.CheckpointSize != 0)
        {
            database.CheckpointSize = 0;
        }

        if (!database.UtcDate)
        {
            database.UtcDate = true;
        }
    }

    private static void DisposeQuietly(LiteDatabase? database, IReadOnlyList<Stream> streams)
    {
        try
        {
            database?.Dispose();
        }
        catch (Exception)
        {
            // The engine may be half closed already; what counts is that the next instance reads the files anew.
        }

        // The engine does not close what it was given.
        foreach (var stream in streams)
        {
            stream.Dispose();
        }
    }
}
