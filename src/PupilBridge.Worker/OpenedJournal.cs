using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.Protection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker;

/// <summary>The journal with everything that hangs on it, opened and caught up.</summary>
internal sealed class OpenedJournal : IDisposable
{
    private readonly CancellationTokenSource stopExamLog = new();
    private Task examLogLoop = Task.CompletedTask;
    private Task pointsLoop = Task.CompletedTask;

    private readonly IJournalDisk disk;
    private readonly EntryIndex index;
    private SubjectKeyStore? keys;
    private ErasureDuty duty = null!;

    private OpenedJournal(
        IJournalDisk disk,
        JournalThread thread,
        ExamLogKeeper examLog,
        ExamTracker tracker,
        JournalEntries entries,
        EntryIndex index
    )
    {
        this.disk = disk;
        Thread = thread;
        ExamLog = examLog;
        Tracker = tracker;
        Entries = entries;
        this.index = index;
    }

    public JournalThread Thread { get; }

    public ExamLogKeeper ExamLog { get; }

    public ExamTracker Tracker { get; }

    public JournalEntries Entries { get; }

    /// <summary>The keys of what is sealed; null where nothing is.</summary>
    public SubjectKeyStore? SubjectKeys => keys;

    public JournalFollower Follower { get; private set; } = null!;

    public JournalKeeper Keeper { get; private set; } = null!;

    public ResumeKeeper Points { get; private set; } = null!;

    /// <summary>Opens the journal under its lock and reads what exam log and entry index do not hold yet.</summary>
    /// <param name="parts">What the bridge is made of.</param>
    /// <param name="board">Where changes are shown.</param>
    /// <param name="listener">Told of what is on disk.</param>
    /// <exception cref="JournalException">The journal cannot be used.</exception>
    public static OpenedJournal Open(BridgeParts parts, LiveBoard board, IRecordedListener listener)
    {
        var options = parts.Options;
        RepeatedErasures.Enter(parts);
        var thread = OpenThread(parts);
        OpenedJournal? opened = null;
        SubjectKeyStore? keys = null;
        try
        {
            keys = SubjectKeyOpening.ForRecording(parts, thread.Folder, thread.Durable.Position.Sequence);
            foreach (var problem in thread.Start.Problems.Where(p => p.Severity == ProblemSeverity.Damage))
                BridgeStart.JournalProblem(parts.Logger, problem.ToString());
            var entries = new JournalEntries(parts.Logger, keys);
            var duty = new ErasureDuty(
                keys,
                parts.Disk,
                options.DataFolder,
                from => RecordsFrom(thread, parts.Disk, from)
            );
            var examLog = new ExamLogKeeper(
                new ExamLogPlace(
                    options.DataFolder,
                    parts.LogOptions,
                    from => ReadFrom(thread, parts.Disk, entries, from),
                    parts.Time,
                    parts.Logger
                )
                {
                    Settle = keys is null ? null : duty.Settle,
                    HasErased = () => keys is { LastErasure: > 0 },
                }
            );
            var index = EntryIndex.Open(
                parts.Disk,
                options.DataFolder,
                SourceOf(thread, parts.Disk, entries),
                parts.Logger,
                seal: new FileSeal(parts.Keys, parts.Encrypt)
            );
            opened = new OpenedJournal(
                parts.Disk,
                thread,
                examLog,
                new ExamTracker(examLog.Find, examLog.FindWaiting),
                entries,
                index
            )
            {
                keys = keys,
                duty = duty,
            };
            opened.CatchUp(parts, board, listener);
            return opened;
        }
        catch
        {
            opened?.Dispose();
            keys?.Dispose();
            thread.Dispose();
            throw;
        }
    }

    /// <summary>Reads one entry that is on disk; null where none stands.</summary>
    /// <exception cref="JournalException">A newer version of the program wrote it.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public Exams.Entries.SequencedEntry? ReadEntry(Exams.Entries.JournalSequence sequence)
    {
        var durable = Thread.Durable.Position.Sequence;
        return JournalReader.Find(disk, Thread.Folder, sequence.Value, durable) is { } record
            ? Entries.Of(record)
            : null;
    }

    /// <summary>The journal's entries before a place, from the first.</summary>
    public IEnumerable<Exams.Entries.SequencedEntry> ReadEntriesBefore(Exams.Entries.JournalSequence before) =>
        before.Value <= 1 ? [] : ReadFrom(Thread, disk, Entries, 1).TakeWhile(entry => entry.Sequence < before);

    /// <summary>Writes what is left to the exam log and the entry index and closes them.</summary>
    /// <returns>Whether that was done in time.</returns>
    public async Task<bool> CloseProjectionsAsync(TimeSpan limit)
    {
        await stopExamLog.CancelAsync().ConfigureAwait(false);
        try
        {
            await Task.WhenAll(examLogLoop, pointsLoop, index.CloseAsync()).WaitAsync(limit).ConfigureAwait(false);
            return true;
        }
        catch (TimeoutException)
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stopExamLog.Cancel();
        ExamLog.Dispose();
        index.Dispose();
        Thread.Dispose();
        keys?.Dispose();
    }

    private static JournalThread OpenThread(BridgeParts parts) =>
        new(
            JournalWriter.Open(
                parts.Disk,
                new JournalOptions
                {
                    Folder = parts.Journal,
                    Encrypt = parts.Encrypt,
                    Writer = $"pupilbridge {parts.ProgramVersion}",
                    Time = parts.Time,
                }
            ),
            new JournalThreadOptions
            {
                // A line is held back long before; the journal's own share is the second fence.
                SharePerSource = Math.Max(1024, 3 * parts.Options.WaitingPerSource),
                LongestBackOff = parts.Options.DiskRetry,
            }
        );

    private static IEnumerable<Exams.Entries.SequencedEntry> ReadFrom(
        JournalThread thread,
        IJournalDisk disk,
        JournalEntries entries,
        long from
    ) => entries.Of(RecordsFrom(thread, disk, from));

    private static IndexSource SourceOf(JournalThread thread, IJournalDisk disk, JournalEntries entries) =>
        new(
            sequence => JournalReader.Find(disk, thread.Folder, sequence, thread.Durable.Position.Sequence)?.Hash,
            () => ReadFrom(thread, disk, entries, 1)
        );

    private static IEnumerable<JournalRecord> RecordsFrom(JournalThread thread, IJournalDisk disk, long from)
    {
        var upTo = thread.Durable.Position.Sequence;
        using var reader = JournalReader.Live(disk, thread.Folder, from, () => upTo);
        foreach (var record in reader.ReadAll())
            yield return record;
    }

    private void CatchUp(BridgeParts parts, LiveBoard board, IRecordedListener listener)
    {
        Points = new ResumeKeeper(
            new ResumeFolder(parts.Disk, parts.Options.DataFolder, new FileSeal(parts.Keys, parts.Encrypt)),
            Tracker,
            sequence => JournalReader.Find(disk, Thread.Folder, sequence, Thread.Durable.Position.Sequence)?.Hash,
            () => !ExamLog.Renewed.IsCompletedSuccessfully,
            parts.Time,
            parts.Logger
        );
        Follower = new JournalFollower(Thread, parts.Disk, Entries, Tracker, ExamLog, index, board, parts.Logger)
        {
            Duty = duty,
            Points = Points,
        };
        Follower.TryResume();
        examLogLoop = Task.Run(() => ExamLog.RunAsync(Tracker.Unwritten, stopExamLog.Token));
        ExamLog.FollowedBy(Follower);
        var known = new KnownEntries(index);
        Follower.CatchUp(known);
        Keeper = new JournalKeeper(Thread, known, listener, keys);
        ExamLog.Tell(step: true);
        pointsLoop = Task.Run(() => Points.RunAsync(stopExamLog.Token));
        Thread.TroubleChanged += trouble => board.Tell(new LiveChange.TroubleChanged(trouble?.Message));
    }
}
