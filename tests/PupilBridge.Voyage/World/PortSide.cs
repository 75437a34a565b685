using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Voyage.World;

/// <summary>
/// What the service does with one port, without threads: the product's session, opened and closed as the port comes and goes.
/// </summary>
internal sealed class PortSide(SteppedService service, string name) : ISessionSurroundings
{
    private static readonly TimeSpan Reopening = TimeSpan.FromSeconds(1);
    private readonly EntrySource source = service.Keeper.OpenSource(name);
    private readonly List<byte> outgoing = [];
    private InstrumentSession? session;
    private TimeSpan openAt;
    private string? ending;

    /// <summary>How often the port was opened.</summary>
    public int Openings { get; private set; }

    /// <summary>The instrument that is met on it.</summary>
    public SerialNumber? Serial => session?.Serial;

    /// <summary>Whether events flow.</summary>
    public bool IsConnected => session is { IsConnected: true };

    /// <summary>The most bytes that ever waited to be sent.</summary>
    public int MostOutgoing { get; private set; }

    /// <summary>The most entries of this port that ever waited for the disk.</summary>
    public int MostWaiting { get; private set; }

    /// <summary>When it must be stepped at the latest.</summary>
    public TimeSpan? NextDue => session is null ? openAt : Since(session.NextDue);

    /// <summary>Takes what was read; what is to be written waits to be taken.</summary>
    public void Step(bool plugged, IReadOnlyList<byte[]> pieces, Moment now)
    {
        if (session is not null && (!plugged || ending is not null))
            Close(ending ?? "The port is gone.", now);
        if (session is null && plugged && service.Now >= openAt)
            Open(now);
        foreach (var piece in pieces)
            Guarded(s => s.OnBytes(piece, now));
        if (session?.NextDue is { } due && now.Monotonic >= due)
            Guarded(s => s.OnTimePassed(now));
    }

    public void OnRecorded(JournalEntry entry, Moment now) => Guarded(s => s.OnRecorded(entry, now));

    public void OnCaughtUp(Moment now) => Guarded(s => s.OnCaughtUp(now));

    /// <summary>Asks the instrument to switch itself off.</summary>
    public void WishOff(SerialNumber serial, Moment now) =>
        Guarded(s =>
            s.OnCommandWished(service.Keeper.NextCommand(serial), InstrumentCommand.Off, new PersonId("HV"), now)
        );

    /// <summary>The service stops in order: the port is closed.</summary>
    public void Stop(Moment now)
    {
        if (session is not null)
            Close("The service stops.", now);
    }

    /// <summary>What is written to the port now.</summary>
    public byte[] TakeOutgoing()
    {
        MostOutgoing = Math.Max(MostOutgoing, outgoing.Count);
        if (outgoing.Count == 0)
            return [];
        var bytes = outgoing.ToArray();
        outgoing.Clear();
        return bytes;
    }

    private void Open(Moment now)
    {
        ending = null;
        Openings++;
        session = new InstrumentSession(new SessionSettings(service.Host, name, 115_200, 512), this);
        Guarded(s => s.OnOpened(now));
    }

    private void Close(string reason, Moment now)
    {
        Guarded(s => s.OnClosed(reason, now));
        service.Release(this);
        session = null;
        ending = null;
        openAt = service.Now + Reopening;
    }

    // Whatever goes wrong in one line ends that line and nothing else, as in the service.
    private void Guarded(Action<InstrumentSession> step)
    {
        if (session is not { } present)
            return;
        try
        {
            step(present);
        }
        catch (Exception e) when (e is SourceFullException or JournalStoppedException)
        {
            ending ??= e.Message;
        }
    }

    private TimeSpan? Since(TimeSpan? due) => due is { } time ? time + service.StartedAt : null;

    int ISessionSurroundings.Waiting => source.Waiting;

    void ISessionSurroundings.Send(ReadOnlySpan<byte> line) => outgoing.AddRange(line);

    void ISessionSurroundings.Submit(JournalEntry entry)
    {
        service.Keeper.Submit(entry, source);
        MostWaiting = Math.Max(MostWaiting, source.Waiting);
    }

    EventPosition? ISessionSurroundings.Find(SerialNumber serial, BootNumber boot) => service.Keeper.Find(serial, boot);

    IReadOnlyList<OpenBoot> ISessionSurroundings.OpenBoots(SerialNumber serial, BootNumber present) =>
        service.Keeper.OpenBoots(serial, present);

    string? ISessionSurroundings.Claim(SerialNumber serial) => service.Claim(serial, this) ? null : "another port";

    TickTimes ISessionSurroundings.Ticks(SerialNumber serial) => service.Ticks(serial);

    void ISessionSurroundings.Show(LiveInstrument instrument) { }

    void ISessionSurroundings.Show(PortPhase phase, string message) { }

    void ISessionSurroundings.CommandEnded(uint number, Exams.Entries.CommandOutcome outcome, string reason) { }

    void ISessionSurroundings.EndLine(PortPhase phase, string message) => ending ??= message;
}
