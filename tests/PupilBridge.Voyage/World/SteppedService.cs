using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Voyage.World;

/// <summary>
/// One life of the service: the product's journal, recovery, keeper, index, reducer, silence watch, sessions and exam log,
/// joined without threads and timers. What its loops do is done in steps that the world asks for.
/// </summary>
internal sealed partial class SteppedService : IRecordedListener
{
    private static readonly TimeSpan FirstBackOff = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan LongestBackOff = TimeSpan.FromSeconds(5);
    private readonly VirtualClock clock;
    private readonly FaultyDisk disk;
    private readonly ExamLogPart log;
    private readonly Chance laziness;
    private readonly JournalThread journal;
    private readonly JournalEntries entries = new(NullLogger.Instance);
    private readonly MomentClock moments;
    private readonly SilenceWatch silence;
    private readonly JournalReader reader;
    private readonly Dictionary<SerialNumber, PortSide> holders = [];
    private readonly Dictionary<SerialNumber, TickTimes> ticks = [];
    private readonly List<PortSide> told = [];
    private readonly HashSet<EntryId> recorded = [];
    private TimeSpan retryAt;
    private TimeSpan backOff = FirstBackOff;
    private TimeSpan lookedAt;

    /// <summary>Starts it as the product does: lock, recovery, catching up, and the entries that say that it started.</summary>
    /// <exception cref="JournalException">The journal cannot be used now.</exception>
    public SteppedService(JournalOptions options, FaultyDisk disk, ExamLogPart log, VirtualClock clock, Chance chance)
    {
        this.disk = disk;
        this.log = log;
        this.clock = clock;
        laziness = chance;
        StartedAt = clock.Now;
        moments = new MomentClock(clock);
        Folder = options.Folder;
        journal = JournalThread.Stepped(JournalWriter.Open(disk, options));
        log.Open(ReadAll);
        Tracker = new ExamTracker(id => ExamLogKeeper.FindIn(log.Store, id));
        var known = CatchUp();
        Keeper = new JournalKeeper(journal, known, this);
        silence = new SilenceWatch(Tracker, Keeper, moments);
        reader = JournalReader.Live(disk, Folder, Applied + 1, () => journal.Durable.Position.Sequence);
        var at = moments.Now.At;
        Keeper.Submit(
            new ServiceStarted
            {
                At = at,
                ProgramVersion = "voyage",
                Host = Host,
            }
        );
        Keeper.Submit(new ProfileInForce { At = at, Profile = Profile.Default });
    }

    public HostId Host { get; } = new(0x51AB0001);

    public JournalFolder Folder { get; }

    public TimeSpan StartedAt { get; }

    /// <summary>Time since the beginning of the voyage.</summary>
    public TimeSpan Now => clock.Now;

    /// <summary>The present moment on this life's clocks.</summary>
    public Moment Present => moments.Now;

    public JournalKeeper Keeper { get; }

    public ExamTracker Tracker { get; }

    /// <summary>The last entry that the exams have.</summary>
    public long Applied { get; private set; }

    /// <summary>What the start found wrong with the journal.</summary>
    public JournalStart Start => journal.Start;

    /// <summary>The most entries that ever waited for the disk.</summary>
    public int MostWaiting { get; private set; }

    /// <summary>The most changes that ever waited to be written to the exam log.</summary>
    public int MostUnwritten { get; private set; }

    /// <summary>When a failed commit is tried again; null while all is well.</summary>
    public TimeSpan? NextDue =>
        journal.Trouble is not null ? retryAt
        : Keeper.Waiting > 0 ? clock.Now
        : null;

    /// <summary>One turn of the journal and of those who follow it.</summary>
    public void Pump()
    {
        if (clock.Now - lookedAt >= SilenceWatch.Every)
        {
            lookedAt = clock.Now;
            silence.Look();
        }

        while (journal.Trouble is null || clock.Now >= retryAt)
        {
            MostWaiting = Math.Max(MostWaiting, Keeper.Waiting);
            if (journal.Step() is not { } commit)
                break;
            if (!commit.IsDurable)
            {
                retryAt = clock.Now + backOff;
                backOff = backOff * 2 < LongestBackOff ? backOff * 2 : LongestBackOff;
                break;
            }

            backOff = FirstBackOff;
            Follow();
        }
    }

    public bool Claim(SerialNumber serial, PortSide port) =>
        holders.TryAdd(serial, port) || ReferenceEquals(holders[serial], port);

    public void Release(PortSide port)
    {
        foreach (var (serial, _) in holders.Where(h => ReferenceEquals(h.Value, port)).ToList())
            holders.Remove(serial);
    }

    public TickTimes Ticks(SerialNumber serial) =>
        ticks.TryGetValue(serial, out var times) ? times : ticks[serial] = new TickTimes();

    /// <summary>Stops in order.</summary>
    /// <returns>Whether the journal's stop is clean.</returns>
    public bool Stop()
    {
        var clean = journal.Stop();
        Follow();
        log.Write(Tracker);
        log.Close();
        reader.Dispose();
        return clean;
    }

    /// <summary>The process is dead: files are closed by the system, nothing more is written.</summary>
    public void Abandon()
    {
        log.Abandon();
        reader.Dispose();
    }

    void IRecordedListener.OnRecorded(SequencedEntry entry)
    {
        if (entry.Entry is PersonEntry person)
            recorded.Add(person.Id);
        if (EntrySerial.Of(entry.Entry) is not { } serial || !holders.TryGetValue(serial, out var port))
            return;
        port.OnRecorded(entry.Entry, Present);
        if (!told.Contains(port))
            told.Add(port);
    }

    void IRecordedListener.OnCaughtUp()
    {
        foreach (var port in told.ToArray())
            port.OnCaughtUp(Present);
        told.Clear();
    }

    private KnownEntries CatchUp()
    {
        var from = log.Store.LastApplied;
        Tracker.Begin(new ExamLogStart(from, ExamLogKeeper.BookOf(log.Store)));
        var known = new KnownEntries();
        foreach (var entry in ReadAll())
        {
            known.Add(entry);
            if (entry.Sequence.Value > from)
                Tracker.Apply(entry);
        }

        Applied = journal.Durable.Position.Sequence;
        Tracker.Unwritten.Pass(Applied);
        return known;
    }

    private IEnumerable<SequencedEntry> ReadAll()
    {
        var upTo = journal.Durable.Position.Sequence;
        using var all = JournalReader.Live(disk, Folder, 1, () => upTo);
        foreach (var entry in entries.Of(all.ReadAll()))
            yield return entry;
    }

    private void Follow()
    {
        while (reader.TryRead() is { } record)
        {
            if (entries.Of(record) is { } entry)
            {
                var changes = Tracker.Apply(entry);
                // The exam log is written at steps, yet lags now and then, as a busy disk makes it.
                if (StepBoundary.Is(entry.Entry, changes) && laziness.Happens(0.06))
                    log.Write(Tracker);
            }

            Applied = record.Sequence;
            Tracker.Unwritten.Pass(Applied);
            MostUnwritten = Math.Max(MostUnwritten, Tracker.Unwritten.DocumentCount);
        }

        LetGo();
    }
}
