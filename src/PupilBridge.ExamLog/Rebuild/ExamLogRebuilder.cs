namespace PupilBridge.ExamLog;

/// <summary>
/// Builds an exam log anew beside the one in use and puts it in its place at the end. Until then the old one stays where it is,
/// and may go on being read.
/// </summary>
/// <example>
/// <code>
/// using var rebuilder = ExamLogRebuilder.Begin(dataFolder);
/// foreach (var batch in journal) rebuilder.Store.Apply(batch.UpTo, batch.Changes);
/// oldStore?.Dispose();
/// rebuilder.Finish("older version");
/// </code>
/// </example>
public sealed class ExamLogRebuilder : IDisposable
{
    private readonly string dataFolder;
    private readonly ExamLogFolder folder;
    private readonly ExamLogOptions options;
    private bool finished;

    private ExamLogRebuilder(string dataFolder, ExamLogFolder folder, ExamLogStore store, ExamLogOptions options)
    {
        this.dataFolder = dataFolder;
        this.folder = folder;
        this.options = options;
        Store = store;
    }

    /// <summary>The exam log that is being built; apply the journal to it from its first entry.</summary>
    public ExamLogStore Store { get; }

    /// <summary>Starts with an empty exam log beside the one in use; an earlier build that was cut off is thrown away.</summary>
    /// <param name="dataFolder">The data folder of the bridge, whose lock the caller holds.</param>
    /// <param name="options">How it is kept; null for the defaults.</param>
    /// <exception cref="ExamLogBrokenException">The files cannot be made.</exception>
    public static ExamLogRebuilder Begin(string dataFolder, ExamLogOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(dataFolder);
        var chosen = options ?? new ExamLogOptions();
        var folder = ExamLogFolder.BeingBuilt(dataFolder);
        Guard(folder, "an earlier build cannot be cleared away", () => ExamLogFolder.Settle(dataFolder));
        return new ExamLogRebuilder(dataFolder, folder, ExamLogStore.OpenIn(folder, chosen), chosen);
    }

    /// <summary>
    /// Reads the new exam log through once, closes it and puts it in the place of the old one, which must be closed by now. The old
    /// one is moved aside and kept: it may hold what explains the damage.
    /// </summary>
    /// <param name="reason">Why it was built anew, for the note beside the old files.</param>
    /// <returns>What was built, and where the old exam log lies now.</returns>
    /// <exception cref="ExamLogBrokenException">The new exam log is not sound, or the files cannot be put in place.</exception>
    public ExamLogRebuilt Finish(string reason)
    {
        ObjectDisposedException.ThrowIf(finished, this);
        var digest = Store.Verify();
        var rebuilt = new ExamLogRebuilt(digest, Store.LastApplied, null);
        finished = true;
        if (!Store.CloseInOrder())
        {
            throw ExamLogBrokenException.Damaged(folder.Folder, "the new exam log could not be closed in good order.");
        }

        string? aside = null;
        Guard(
            folder,
            "the new exam log cannot be put in place",
            () =>
            {
                StateMark.WriteFinishedBuild(folder.MarkFile);
                var inUse = ExamLogFolder.InUse(dataFolder);
                var isToBeForgotten = options.Encrypt && !ExamLogKey.IsThere(inUse);
                aside = inUse.MoveAside(reason, options.Time.GetUtcNow());
                Directory.Move(folder.Folder, inUse.Folder);
                if (isToBeForgotten && aside is not null)
                {
                    // What is encrypted from now on is not to lie beside it in the clear.
                    Directory.Delete(aside, recursive: true);
                    aside = null;
                }
            }
        );
        return rebuilt with { OldFiles = aside };
    }

    /// <summary>Throws an unfinished build away.</summary>
    public void Dispose()
    {
        if (finished)
        {
            return;
        }

        finished = true;
        Store.Dispose();
        try
        {
            Directory.Delete(folder.Folder, recursive: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The next start clears it away.
        }
    }

    private static void Guard(ExamLogFolder folder, string what, Action work)
    {
        try
        {
            work();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw ExamLogBrokenException.Damaged(folder.Folder, $"{what} ({e.Message}).", e);
        }
    }
}

/// <summary>The outcome of a rebuild.</summary>
/// <param name="Digest">What stands for the content.</param>
/// <param name="LastApplied">The sequence of the last journal entry in it.</param>
/// <param name="OldFiles">Where the exam log that was in use before lies now; null if there was none.</param>
public sealed record ExamLogRebuilt(ContentDigest Digest, long LastApplied, string? OldFiles);
