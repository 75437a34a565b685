using System.Diagnostics.CodeAnalysis;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.SimulatedDisk;
using PupilBridge.Simulator;
using PupilBridge.Worker;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Sessions;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Voyage.World;

/// <summary>
/// One life of the service: the product's journal, recovery, keeper, index, follower, reducer, silence watch, sessions, exam log,
/// patients' keys and erasures, joined without threads and timers. What its loops do is done in steps that the world asks for.
/// </summary>
[SuppressMessage("Design", "CA1001", Justification = "A life ends by Stop or Abandon, and both close what it had.")]
internal sealed partial class SteppedService : IRecordedListener
{
    private static readonly TimeSpan FirstBackOff = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan LongestBackOff = TimeSpan.FromSeconds(5);
    private readonly VirtualClock clock;
    private readonly FaultyDisk disk;
    private readonly ExamLogPart log;
    private readonly Chance laziness;
    private readonly JournalThread journal;
    private JournalEntries entries;
    private SubjectKeyStore? keys;
    private ExamLogKeeper examLog;
    private JournalFollower follower;
    private readonly MomentClock moments;
    private readonly SilenceWatch silence;
    private JournalReader? reader;
    private JournalRecord? unfollowed;
    private TimeSpan followAt;
    private readonly Dictionary<SerialNumber, PortSide> holders = [];
    private readonly Dictionary<SerialNumber, TickTimes> ticks = [];
    private readonly List<PortSide> told = [];
    private readonly HashSet<EntryId> recorded = [];
    private TimeSpan retryAt;
    private TimeSpan backOff = FirstBackOff;
    private TimeSpan lookedAt;

    /// <summary>Starts it as the product does: lock, recovery, catching up, and the entries that say that it started.</summary>
    /// <param name="options">How the journal is kept.</param>
    /// <param name="parts">Data folder, keys and what is sealed, as the product is given them.</param>
    /// <param name="disk">The machine's disk.</param>
    /// <param name="log">Where the exam log lies.</param>
    /// <param name="clock">The machine's clocks.</param>
    /// <param name="chance">Decides how busy the machine is.</param>
    /// <exception cref="JournalException">The journal cannot be used now.</exception>
    /// <exception cref="BridgeStartException">Something else cannot.</exception>
    /// <exception cref="IOException">The disk refuses.</exception>
    public SteppedService(
        JournalOptions options,
        BridgeParts parts,
        FaultyDisk disk,
        ExamLogPart log,
        VirtualClock clock,
        Chance chance
    )
    {
        this.disk = disk;
        this.log = log;
        this.clock = clock;
        laziness = chance;
        StartedAt = clock.Now;
        moments = new MomentClock(clock);
        Folder = options.Folder;
        journal = JournalThread.Stepped(JournalWriter.Open(disk, options));
        try
        {
            Join(parts);
        }
        catch
        {
            Leave();
            throw;
        }

        silence = new SilenceWatch(Tracker, Keeper, moments);
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

    public JournalKeeper Keeper { get; private set; }

    public ExamTracker Tracker { get; private set; }

    /// <summary>The last entry that the exams have.</summary>
    public long Applied => follower.Applied;

    /// <summary>What the start found wrong with the journal.</summary>
    public JournalStart Start => journal.Start;

    /// <summary>The most entries that ever waited for the disk.</summary>
    public int MostWaiting { get; private set; }

    /// <summary>The most changes that ever waited to be written to the exam log.</summary>
    public int MostUnwritten { get; private set; }

    /// <summary>When something that failed is tried again, or work goes on that takes longer; null while there is none.</summary>
    public TimeSpan? NextDue
    {
        get
        {
            TimeSpan? due =
                journal.Trouble is not null ? retryAt
                : Keeper.Waiting > 0 ? clock.Now
                : null;
            void At(TimeSpan moment) => due = due < moment ? due : moment;
            if (unfollowed is not null)
                At(followAt);
            if (stretch is not null || HasExamLogWork)
                At(examLogAt);
            return due;
        }
    }

    /// <summary>One turn of the journal and of those who follow it.</summary>
    public void Pump()
    {
        if (clock.Now - lookedAt >= SilenceWatch.Every)
        {
            lookedAt = clock.Now;
            silence.Look();
        }

        GoOnWithExamLog();
        Follow();
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
        stretch?.Dispose();
        stretch = null;
        log.Close(examLog);
        // Whoever still waits is not answered by this life.
        hasEnded = true;
        LetGo();
        reader?.Dispose();
        keys?.Dispose();
        return clean;
    }

    /// <summary>The process is dead: files are closed by the system, nothing more is written.</summary>
    public void Abandon() => Leave();

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

    private void Follow()
    {
        if (clock.Now >= followAt && follower.TryBegin())
        {
            reader ??= JournalReader.Live(disk, Folder, Applied + 1, () => journal.Durable.Position.Sequence);
            while ((unfollowed ??= reader.TryRead()) is { } record)
            {
                try
                {
                    // The exam log is written at steps, yet lags now and then, as a busy disk makes it.
                    if (follower.Step(record) && laziness.Happens(0.06))
                        examLog.WriteAll();
                }
                catch (IOException)
                {
                    // As the product's loop does: the same record is taken again a second later.
                    followAt = clock.Now + TimeSpan.FromSeconds(1);
                    break;
                }

                unfollowed = null;
                MostUnwritten = Math.Max(MostUnwritten, Tracker.Unwritten.DocumentCount);
            }
        }

        LetGo();
    }
}
