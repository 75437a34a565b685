using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Scenarios.InMemory;

/// <summary>
/// The product's session, index and journal writer joined without threads and timers: what the service does with a port,
/// one step at a time, in virtual time. The journal is a real one on a real disk.
/// </summary>
public sealed class SteppedBridge : ISessionSurroundings, IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 6, 1, 8, 0, 0, TimeSpan.Zero);
    private readonly JournalWriter writer;
    private readonly KnownEntries known = new();
    private readonly List<JournalEntry> uncommitted = [];
    private readonly List<byte> outgoing = [];
    private readonly Dictionary<SerialNumber, TickTimes> ticks = [];
    private InstrumentSession? session;
    private bool lineEnded;
    private TimeSpan nextTick;

    /// <summary>Opens the bridge on a data folder.</summary>
    /// <param name="dataFolder">The folder; made when missing.</param>
    public SteppedBridge(string dataFolder)
    {
        Folder = new JournalFolder(dataFolder);
        writer = JournalWriter.Open(RealDisk.Instance, new JournalOptions { Folder = Folder });
        foreach (var entry in JournalText.ReadAll(dataFolder))
            known.Add(entry);
    }

    /// <summary>Where the journal lies.</summary>
    public JournalFolder Folder { get; }

    /// <summary>How often the line was opened.</summary>
    public int Openings { get; private set; }

    /// <summary>Whether events flow.</summary>
    public bool IsConnected => session is { IsConnected: true };

    /// <summary>What the session last showed of its port.</summary>
    public (PortPhase Phase, string Message) Shown { get; private set; }

    int ISessionSurroundings.Waiting => uncommitted.Count;

    /// <summary>One step: the port is there or not, some pieces were read, time is now so much.</summary>
    /// <param name="plugged">Whether the port exists.</param>
    /// <param name="pieces">What was read, in the pieces in which it was.</param>
    /// <param name="now">Virtual time.</param>
    /// <returns>What is written to the port.</returns>
    public byte[] Step(bool plugged, IReadOnlyList<byte[]> pieces, TimeSpan now)
    {
        var moment = At(now);
        if (session is not null && (!plugged || lineEnded))
        {
            session.OnClosed(plugged ? Shown.Message : "The port is gone.", moment);
            session = null;
        }

        if (session is null && plugged)
            Open(moment);
        foreach (var piece in pieces)
            session?.OnBytes(piece, moment);
        if (now >= nextTick)
        {
            nextTick = now + TimeSpan.FromMilliseconds(250);
            session?.OnTimePassed(moment);
        }

        Commit(moment);
        var bytes = outgoing.ToArray();
        outgoing.Clear();
        return bytes;
    }

    /// <summary>Records what a person entered; it is on disk when this returns.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="now">Virtual time.</param>
    public void Record(PersonEntry entry, TimeSpan now)
    {
        ((ISessionSurroundings)this).Submit(entry);
        Commit(At(now));
    }

    /// <summary>A moment of virtual time on both clocks.</summary>
    public static Moment At(TimeSpan now) => new(now, Start + now);

    /// <inheritdoc/>
    public void Dispose()
    {
        writer.StopCleanly();
        writer.Dispose();
    }

    void ISessionSurroundings.Send(ReadOnlySpan<byte> line) => outgoing.AddRange(line);

    void ISessionSurroundings.Submit(JournalEntry entry)
    {
        if (!known.Events.IsNew(entry))
            return;
        known.Events.Take(entry);
        writer.Append(EntryCodec.Encode(entry));
        uncommitted.Add(entry);
    }

    EventPosition? ISessionSurroundings.Find(SerialNumber serial, BootNumber boot) => known.Events.Find(serial, boot);

    IReadOnlyList<OpenBoot> ISessionSurroundings.OpenBoots(SerialNumber serial, BootNumber present) =>
        known.Events.OpenBoots(serial, present);

    string? ISessionSurroundings.Claim(SerialNumber serial) => null;

    TickTimes ISessionSurroundings.Ticks(SerialNumber serial) =>
        ticks.TryGetValue(serial, out var times) ? times : ticks[serial] = new TickTimes();

    void ISessionSurroundings.Show(LiveInstrument instrument) { }

    void ISessionSurroundings.Show(PortPhase phase, string message) => Shown = (phase, message);

    void ISessionSurroundings.CommandEnded(uint number, Exams.Entries.CommandOutcome outcome, string reason) { }

    void ISessionSurroundings.EndLine(PortPhase phase, string message)
    {
        Shown = (phase, message);
        lineEnded = true;
    }

    private void Open(Moment moment)
    {
        lineEnded = false;
        Openings++;
        session = new InstrumentSession(new SessionSettings(new HostId(0x51AB0001), "memory:lane", 115_200, 256), this);
        session.OnOpened(moment);
    }

    private void Commit(Moment moment)
    {
        if (uncommitted.Count > 0)
        {
            var commit = writer.Commit();
            if (commit.Trouble is { } trouble)
                throw new InvalidOperationException($"The scenario's own disk failed: {trouble.Message}");
            var done = uncommitted.ToArray();
            uncommitted.Clear();
            foreach (var entry in done)
            {
                known.Events.SetDurable(entry);
                session?.OnRecorded(entry, moment);
            }
        }

        session?.OnCaughtUp(moment);
    }
}
