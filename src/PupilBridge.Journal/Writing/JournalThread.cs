namespace PupilBridge.Journal;

/// <summary>
/// The one thread that writes the journal. It takes all that gathered while it synced last, appends it, syncs once, and
/// tells each who waits, in order. There is no timer: a lone entry is synced at once, and a rush shares syncs by itself.
/// <para>
/// When a commit fails, the entries stay pending and are tried again on a new segment, after a back-off; sources wait
/// meanwhile, nothing is dropped, and <see cref="Trouble"/> says why. Memory is bounded by the sources' shares.
/// </para>
/// </summary>
public sealed partial class JournalThread : IDisposable
{
    private readonly object _gate = new();
    private readonly JournalWriter _writer;
    private readonly JournalThreadOptions _limits;
    private readonly Thread? _thread;
    private readonly HashSet<JournalSource> _waitingSources = [];
    private PendingBatch _gathering = new();
    private PendingBatch _committing = new();
    private bool _stopping;
    private volatile bool _abandoning;
    private bool _retryNow;
    private volatile JournalTrouble? _trouble;
    private JournalCommit? _lastCommit;

    /// <summary>Starts the thread. The writer belongs to it from now on.</summary>
    public JournalThread(JournalWriter writer, JournalThreadOptions? limits = null)
        : this(writer, limits, ofItsOwn: true) { }

    private JournalThread(JournalWriter writer, JournalThreadOptions? limits, bool ofItsOwn)
    {
        ArgumentNullException.ThrowIfNull(writer);
        _writer = writer;
        _limits = limits ?? new JournalThreadOptions();
        Durable = new DurableSignal(writer.Durable);
        Start = writer.Start;
        Folder = writer.Options.Folder;
        if (!ofItsOwn)
            return;
        _thread = new Thread(Run) { Name = "journal", IsBackground = true };
        _thread.Start();
    }

    /// <summary>What was found at the opening.</summary>
    public JournalStart Start { get; }

    /// <summary>Where the journal lives.</summary>
    public JournalFolder Folder { get; }

    /// <summary>The durable position, to look at and to wait for.</summary>
    public DurableSignal Durable { get; }

    /// <summary>Why nothing can be recorded at present; null when all is well.</summary>
    public JournalTrouble? Trouble => _trouble;

    /// <summary>
    /// Raised when <see cref="Trouble"/> comes, changes or goes (null), on the journal's thread; handlers must be quick.
    /// </summary>
    public event Action<JournalTrouble?>? TroubleChanged;

    /// <summary>Raised when a listener threw, which concerns that listener alone, on the journal's thread.</summary>
    public event Action<Exception>? ListenerFailed;

    /// <summary>Makes a source with a share of its own.</summary>
    public JournalSource OpenSource(string name) => new(this, name);

    /// <summary>
    /// Records what was given so far, marks the stop as clean and closes. If that takes longer than the limit (the disk
    /// hangs), it is left to end by itself; if the disk refuses, those who wait are told that their entries are not recorded.
    /// </summary>
    /// <param name="limit">The default is 2 s.</param>
    /// <returns>Whether the stop is clean.</returns>
    public bool Stop(TimeSpan? limit = null)
    {
        lock (_gate)
        {
            _stopping = true;
            Monitor.PulseAll(_gate);
        }
        if (_thread is null)
            EndStepped();
        else if (!_thread.Join(limit ?? TimeSpan.FromSeconds(2)))
            return false;
        return _lastCommit is { IsDurable: true };
    }

    /// <summary>Closes at once, as a crash would: no clean-stop mark; what is not durable yet is not recorded.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            _stopping = true;
            _abandoning = true;
            Monitor.PulseAll(_gate);
        }
        if (_thread is null)
            EndStepped();
        else
            _thread.Join(TimeSpan.FromSeconds(2));
    }

    private void Run()
    {
        while (TakeGathered())
        {
            if (!CommitWithRetries())
                break;
            Complete();
        }
        End();
    }

    /// <summary>Waits for entries; false when stopping and none are left.</summary>
    private bool TakeGathered()
    {
        lock (_gate)
        {
            while (_gathering.Count == 0 && !_stopping)
                Monitor.Wait(_gate);
            return !_abandoning && TryTakeGathered();
        }
    }

    private bool TryTakeGathered()
    {
        lock (_gate)
        {
            if (_gathering.Count == 0)
                return false;
            (_gathering, _committing) = (_committing, _gathering);
            return true;
        }
    }

    private JournalCommit CommitOnce()
    {
        JournalCommit outcome = _writer.Commit(_committing.Records);
        SetTrouble(outcome.Trouble);
        return outcome;
    }

    /// <summary>Commits until it succeeds; false when told to stop while it does not.</summary>
    private bool CommitWithRetries()
    {
        TimeSpan backOff = _limits.FirstBackOff;
        bool lastTry = false;
        while (true)
        {
            if (CommitOnce().IsDurable)
                return true;
            if (lastTry)
                return false;
            lastTry = !WaitBeforeRetry(backOff);
            if (_abandoning)
                return false;
            backOff = TimeSpan.FromTicks(Math.Min(backOff.Ticks * 2, _limits.LongestBackOff.Ticks));
        }
    }

    private bool WaitBeforeRetry(TimeSpan backOff)
    {
        using ITimer timer = _writer.Options.Time.CreateTimer(_ => RetryNow(), null, backOff, Timeout.InfiniteTimeSpan);
        lock (_gate)
        {
            while (!_retryNow && !_stopping)
                Monitor.Wait(_gate);
            _retryNow = false;
            return !_stopping;
        }
    }

    private void RetryNow()
    {
        lock (_gate)
        {
            _retryNow = true;
            Monitor.PulseAll(_gate);
        }
    }

    private void Complete()
    {
        lock (_gate)
        {
            foreach (PendingEntry entry in _committing.Entries)
                entry.Source.Release_NeedsGate(entry.Bytes);
            Admit_NeedsGate();
        }
        Durable.Publish(_writer.Durable);
        long sequence = _committing.Records.FirstSequence;
        foreach (PendingEntry entry in _committing.Entries)
            Tell(entry, sequence++);
        _committing.Clear();
    }

    private void Tell(in PendingEntry entry, long sequence)
    {
        try
        {
            entry.Listener?.OnDurable(entry.Tag, sequence);
        }
        catch (Exception e)
        {
            // One listener's fault must not stop the journal for the others.
            ListenerFailed?.Invoke(e);
        }
    }

    private void SetTrouble(JournalTrouble? trouble)
    {
        if (_trouble?.Message == trouble?.Message)
            return;
        _trouble = trouble;
        TroubleChanged?.Invoke(trouble);
    }

    private void End()
    {
        if (_abandoning || _committing.Count > 0)
            _writer.Dispose();
        else
            _lastCommit = _writer.StopCleanly();
        Durable.Publish(_writer.Durable);
        SetTrouble(_lastCommit?.Trouble ?? _trouble);
        string reason = _trouble?.Message ?? "The journal was stopped before the entry was recorded; give it again.";
        Refuse(_committing, reason);
        lock (_gate)
        {
            Refuse(_gathering, reason);
            foreach (JournalSource source in _waitingSources)
            {
                while (source.FirstWaiting_NeedsGate is { } waiting)
                {
                    source.Unwait_NeedsGate(waiting);
                    waiting.TrySetException(new JournalStoppedException(reason));
                }
            }
            _waitingSources.Clear();
        }
    }

    private void Refuse(PendingBatch batch, string reason)
    {
        foreach (PendingEntry entry in batch.Entries)
        {
            try
            {
                entry.Listener?.OnNotRecorded(entry.Tag, reason);
            }
            catch (Exception e)
            {
                ListenerFailed?.Invoke(e);
            }
        }
        batch.Clear();
    }
}
