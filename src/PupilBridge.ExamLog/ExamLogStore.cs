namespace PupilBridge.ExamLog;

/// <summary>
/// The exam log: exams, patients, instruments and look-ups as a projection of the journal. It can be thrown away at any time and
/// built anew with the same content.
/// </summary>
/// <remarks>
/// One thread applies and checkpoints; any number of threads may read meanwhile. Whoever opens it holds the lock of the data
/// folder, since two processes in the same files destroy them unnoticed. After an <see cref="ExamLogBrokenException"/> the store
/// answers nothing more: dispose it, open it again and apply what follows <see cref="LastApplied"/>, or rebuild.
/// </remarks>
public sealed partial class ExamLogStore : IDisposable
{
    /// <summary>
    /// The version of what the documents hold. It goes up with every change to them; an exam log of another version is not
    /// converted but built anew.
    /// </summary>
    public const int ProjectionVersion = 11;

    private static readonly DocumentShelf<StoredExam> Exams = new(ExamKind.Instance, new KeyShelf(Names.ExamKeys));
    private static readonly DocumentShelf<StoredPatient> Patients = new(
        PatientKind.Instance,
        new KeyShelf(Names.PatientKeys)
    );
    private static readonly DocumentShelf<StoredInstrument> Instruments = new(InstrumentKind.Instance);
    private static readonly DocumentShelf<StoredLookUp> LookUps = new(LookUpKind.Instance);
    private static readonly DocumentShelf<StoredOutboxItem> Outbox = new(
        OutboxKind.Instance,
        new KeyShelf(Names.OutboxKeys)
    );

    private readonly ExamLogFolder folder;
    private readonly DocumentFile file;
    private readonly ExamLogOptions options;
    private volatile Position position;
    private bool disposed;
    private bool closedInOrder;

    private ExamLogStore(ExamLogFolder folder, DocumentFile file, Position position, ExamLogOptions options)
    {
        this.folder = folder;
        this.file = file;
        this.position = position;
        this.options = options;
    }

    /// <summary>The sequence of the last journal entry that the documents contain; 0 if none.</summary>
    public long LastApplied => position.LastApplied;

    /// <summary>What <see cref="ExamLogChanges.Carry"/> gave last: what to remember at <see cref="LastApplied"/>; empty at 0.</summary>
    public ReadOnlyMemory<byte> Carry => position.Carry;

    /// <summary>The folder of the exam log, for people to find it.</summary>
    public string Folder => folder.Folder;

    /// <summary>Whether a failure has ended the use of this store.</summary>
    public bool IsBroken => file.IsBroken;

    /// <summary>Opens the exam log of a data folder, or makes an empty one.</summary>
    /// <param name="dataFolder">The data folder of the bridge, whose lock the caller holds.</param>
    /// <param name="options">How it is kept; null for the defaults.</param>
    /// <exception cref="ExamLogBrokenException">
    /// It is damaged, was open when the machine went down, or is of another version. <see cref="MoveAside"/> it, or build it anew
    /// with an <see cref="ExamLogRebuilder"/>.
    /// </exception>
    public static ExamLogStore Open(string dataFolder, ExamLogOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(dataFolder);
        var folder = ExamLogFolder.InUse(dataFolder);
        try
        {
            ExamLogFolder.Settle(dataFolder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw ExamLogBrokenException.Damaged(folder.Folder, $"its folder cannot be put in order ({e.Message}).", e);
        }

        return OpenIn(folder, options ?? new ExamLogOptions());
    }

    /// <summary>Renames the exam log so that a new one can be made in its place; nobody may have it open.</summary>
    /// <param name="dataFolder">The data folder of the bridge.</param>
    /// <param name="reason">Why, in words for the person who finds the files.</param>
    /// <param name="time">Where the time in the new name comes from.</param>
    /// <returns>The new path; null if there was no exam log.</returns>
    public static string? MoveAside(string dataFolder, string reason, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(time);
        return ExamLogFolder.InUse(dataFolder).MoveAside(reason, time.GetUtcNow());
    }

    /// <summary>Deletes all exam logs that were moved aside.</summary>
    /// <param name="dataFolder">The data folder of the bridge.</param>
    /// <returns>The folders that were deleted.</returns>
    /// <exception cref="IOException">One of them cannot be deleted.</exception>
    public static IReadOnlyList<string> DeleteMovedAside(string dataFolder) =>
        ExamLogFolder.InUse(dataFolder).DeleteMovedAside();

    /// <summary>
    /// Applies what the journal's entries up to a sequence changed. Documents and position are one transaction. Changes that were
    /// applied before are recognised by their sequence and left alone, so that a replay does no harm.
    /// </summary>
    /// <param name="upTo">The sequence of the last journal entry that the changes contain, at least 1.</param>
    /// <param name="changes">The documents as they are after that entry.</param>
    /// <returns>False if the exam log had come so far already and nothing was done.</returns>
    /// <exception cref="ArgumentException">A document has no usable key, or stands twice in the changes.</exception>
    /// <exception cref="ExamLogBrokenException">It could not be written; it is not known whether it was.</exception>
    public bool Apply(long upTo, ExamLogChanges changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        ArgumentOutOfRangeException.ThrowIfLessThan(upTo, 1);
        ChangeRules.Require(changes);
        if (upTo <= position.LastApplied)
        {
            return false;
        }

        Position? next = null;
        file.Write(
            "writing",
            database =>
            {
                var tallies = new TallySheet(position.Tallies);
                Exams.Put(database, changes.Exams, tallies);
                Patients.Put(database, changes.Patients, tallies);
                Instruments.Put(database, changes.Instruments, tallies);
                LookUps.Put(database, changes.LookUps, tallies);
                Outbox.Put(database, changes.Outbox, tallies);
                next = position with { LastApplied = upTo, Carry = changes.Carry, Tallies = tallies.All };
                next.Write(database);
            }
        );
        position = next!;
        if (file.LogBytes >= options.CheckpointBytes)
        {
            file.Checkpoint();
        }

        return true;
    }

    /// <summary>
    /// Moves the engine's log into the data file, if it holds anything. The applying thread calls this when it has nothing else to do.
    /// </summary>
    /// <returns>Whether there was anything to move.</returns>
    /// <exception cref="ExamLogBrokenException">It failed.</exception>
    public bool CheckpointIfNeeded()
    {
        if (file.LogBytes == 0)
        {
            return false;
        }

        file.Checkpoint();
        return true;
    }

    /// <summary>
    /// Reads everything, compares each document with its check value, the number of documents with the number written, and each
    /// index with the documents.
    /// </summary>
    /// <returns>What stands for the content; equal content gives an equal digest.</returns>
    /// <exception cref="ExamLogBrokenException">Something is not as it was written.</exception>
    public ContentDigest Verify() =>
        file.WhileNobodyWrites(() => Verifier.Run(file, position, Exams, Patients, Instruments, LookUps, Outbox));

    /// <summary>The same as <see cref="Verify"/>, with the journal sequence that the content belongs to.</summary>
    /// <exception cref="ExamLogBrokenException">Something is not as it was written.</exception>
    public ExamLogCheck Check() => file.WhileNobodyWrites(() => new ExamLogCheck(LastApplied, Verify()));

    /// <summary>
    /// Closes the exam log: moves the engine's log into the data file and notes that it was closed in good order. It never throws;
    /// where that fails, the next start finds no such note and acts on it.
    /// </summary>
    public void Dispose() => CloseInOrder();

    /// <summary>Closes the exam log.</summary>
    /// <returns>Whether it lies complete and durable on the disk.</returns>
    internal bool CloseInOrder()
    {
        if (disposed)
        {
            return closedInOrder;
        }

        disposed = true;
        try
        {
            if (!file.IsBroken)
            {
                CheckpointIfNeeded();
                file.Dispose();
                closedInOrder = file.TrySync();
                if (closedInOrder)
                {
                    StateMark.WriteClean(folder.MarkFile);
                }
            }
        }
        catch (Exception e) when (e is ExamLogBrokenException or IOException or UnauthorizedAccessException)
        {
            // Nothing to save here: without the note the next start opens with care, or builds anew.
            closedInOrder = false;
        }
        finally
        {
            file.Dispose();
        }

        return closedInOrder;
    }
}
