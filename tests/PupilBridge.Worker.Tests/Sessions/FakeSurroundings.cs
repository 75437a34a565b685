using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Tests.Sessions;

/// <summary>
/// The world around a session, held still: a journal that records when the test says so, claims that a test sets, and lists
/// of all that was asked for. The index of events is the real one.
/// </summary>
internal sealed class FakeSurroundings : ISessionSurroundings
{
    private readonly EventIndex index = new();
    private readonly Queue<JournalEntry> waiting = [];
    private readonly Dictionary<SerialNumber, TickTimes> ticks = [];

    public List<byte> ToInstrument { get; } = [];

    public List<string> Sent { get; } = [];

    /// <summary>All that is on disk, in order.</summary>
    public List<JournalEntry> Recorded { get; } = [];

    public List<(PortPhase Phase, string Message)> Phases { get; } = [];

    public List<(uint Number, PupilBridge.Exams.Entries.CommandOutcome Outcome, string Reason)> CommandsEnded { get; } =
    [];

    public (PortPhase Phase, string Message)? Ending { get; private set; }

    public LiveInstrument? Live { get; private set; }

    /// <summary>Serial numbers that are live on other ports.</summary>
    public Dictionary<string, string> Elsewhere { get; } = [];

    public int Waiting => waiting.Count;

    public long AckSent { get; private set; } = -1;

    public void Send(ReadOnlySpan<byte> line)
    {
        ToInstrument.AddRange(line);
        var text = Encoding.ASCII.GetString(line);
        Sent.Add(text);
        if (text.StartsWith("ACK,", StringComparison.Ordinal))
            AckSent = long.Parse(text.Split(',', '*')[3], System.Globalization.CultureInfo.InvariantCulture);
    }

    public void Submit(JournalEntry entry)
    {
        if (!index.IsNew(entry))
            return;
        index.Take(entry);
        waiting.Enqueue(entry);
    }

    /// <summary>The disk takes what waits, at most so many, and tells the session.</summary>
    public void MakeDurable(InstrumentSession session, Moment now, int atMost = int.MaxValue)
    {
        var any = false;
        for (; atMost > 0 && waiting.TryDequeue(out var entry); atMost--)
        {
            any = true;
            index.SetDurable(entry);
            Recorded.Add(entry);
            session.OnRecorded(entry, now);
        }

        if (any)
            session.OnCaughtUp(now);
    }

    public EventPosition? Find(SerialNumber serial, BootNumber boot) => index.Find(serial, boot);

    public IReadOnlyList<OpenBoot> OpenBoots(SerialNumber serial, BootNumber present) =>
        index.OpenBoots(serial, present);

    public string? Claim(SerialNumber serial) => Elsewhere.GetValueOrDefault(serial.Value);

    public TickTimes Ticks(SerialNumber serial) =>
        ticks.TryGetValue(serial, out var known) ? known : ticks[serial] = new TickTimes();

    public void Show(LiveInstrument instrument) => Live = instrument;

    public void Show(PortPhase phase, string message) => Phases.Add((phase, message));

    public void CommandEnded(uint number, PupilBridge.Exams.Entries.CommandOutcome outcome, string reason) =>
        CommandsEnded.Add((number, outcome, reason));

    public void EndLine(PortPhase phase, string message) => Ending ??= (phase, message);

    public IEnumerable<long> EventNumbers(BootNumber boot) =>
        Recorded.OfType<InstrumentReported>().Where(e => e.Boot == boot).Select(e => e.Sequence);
}
