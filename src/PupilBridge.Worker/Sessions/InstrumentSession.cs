using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Sessions;

/// <summary>
/// One opening of one port, as a chain of steps: bytes, time and news from the journal go in; bytes for the instrument,
/// entries for the journal and live values come out. It has no thread and no clock, so that a simulation can drive it as
/// well as a port. Whoever drives it gives one step at a time.
/// </summary>
internal sealed partial class InstrumentSession
{
    private readonly SessionSettings settings;
    private readonly ISessionSurroundings around;
    private readonly LineBuffer lines = new();
    private readonly Queue<HostLinkInput> inputs = [];
    private HostLinkState link;
    private bool stepping;
    private bool ended;

    /// <summary>Makes a session for a port that is about to be opened.</summary>
    /// <param name="settings">Who we are and what the limits are.</param>
    /// <param name="around">Where the outputs go.</param>
    public InstrumentSession(SessionSettings settings, ISessionSurroundings around)
    {
        this.settings = settings;
        this.around = around;
        link = HostLinkState.New(settings.Host);
    }

    /// <summary>The instrument that was met, once it was.</summary>
    public SerialNumber? Serial => live?.Serial;

    /// <summary>Whether events flow.</summary>
    public bool IsConnected => link.Phase == HostLinkPhase.Connected && !ended;

    /// <summary>What was counted on this line.</summary>
    public HostLinkCounters Counters => link.Counters;

    /// <summary>
    /// When <see cref="OnTimePassed"/> must be called at the latest if nothing happens before, on the monotonic clock; null if
    /// nothing waits for time.
    /// </summary>
    public TimeSpan? NextDue =>
        ended ? null
        : durableMoved ? durableMovedAt + SessionSettings.AcknowledgeWithin
        : link.NextDue;

    /// <summary>How many events were passed over because the disk did not keep up; they come again.</summary>
    public long PassedOver { get; private set; }

    /// <summary>The port is open.</summary>
    /// <param name="now">The present moment.</param>
    public void OnOpened(Moment now) => Step(new HostLinkInput.Opened(now.Monotonic), now);

    /// <summary>Bytes arrived.</summary>
    /// <param name="bytes">The bytes, cut anywhere.</param>
    /// <param name="now">When they arrived.</param>
    public void OnBytes(ReadOnlySpan<byte> bytes, Moment now)
    {
        while (!bytes.IsEmpty)
        {
            bytes = bytes[lines.Take(bytes)..];
            while (lines.TryNext(out var content) && !ended)
                OnLine(content, now);
        }
    }

    /// <summary>Time passed; to be told at <see cref="NextDue"/> at the latest.</summary>
    /// <param name="now">The present moment.</param>
    public void OnTimePassed(Moment now)
    {
        OnCaughtUp(now);
        Step(new HostLinkInput.TimePassed(now.Monotonic), now);
    }

    /// <summary>A person decided to take the instrument over from another host.</summary>
    /// <param name="now">The present moment.</param>
    public void OnTakeOverWished(Moment now) => Step(new HostLinkInput.TakeOverWished(now.Monotonic), now);

    /// <summary>The port is closed or lost.</summary>
    /// <param name="reason">Why, for a person.</param>
    /// <param name="now">The present moment.</param>
    public void OnClosed(string reason, Moment now)
    {
        var was = ended;
        ended = false;
        Step(new HostLinkInput.Closed(now.Monotonic, reason), now);
        ended = true;
        if (!was)
            OnLineEnded(LineState.Lost, reason, now);
    }

    private void OnLine(ReadOnlySpan<byte> content, Moment now)
    {
        if (content.IsEmpty)
        {
            Step(new HostLinkInput.LineFaulty(new LineFault(LineFaultKind.TooLong, 0), now.Monotonic), now);
        }
        else if (!InstrumentLineDecoder.TryDecode(content, out var line, out var fault))
        {
            Step(new HostLinkInput.LineFaulty(fault, now.Monotonic), now);
        }
        else if (line.Kind == InstrumentLineKind.Event && MustComeAgain(line.Event, now))
        {
            // It is not accepted, so it is not acknowledged, and the instrument sends it again.
            PassedOver++;
        }
        else
        {
            var raw = IsKept(line.Kind) ? content.TrimEnd((byte)'\r').ToArray() : [];
            Step(new HostLinkInput.LineArrived(line, raw, now.Monotonic), now);
        }
    }

    /// <summary>
    /// Whether an event comes too early to be taken: the disk does not keep up, or no heartbeat has told yet what the ticks
    /// of this boot mean. An entry's time is fixed for good when it is written, so the first heartbeat is waited for; only an
    /// instrument that breaks the rule of one each second is taken without.
    /// </summary>
    private bool MustComeAgain(in InstrumentEvent happened, Moment now) =>
        around.Waiting >= settings.WaitingLimit
        || (!clock.Knows(happened.Boot) && now.Monotonic - connectedAt < SessionSettings.FirstBeatWithin);

    private static bool IsKept(InstrumentLineKind kind) =>
        kind
            is InstrumentLineKind.Event
                or InstrumentLineKind.Identity
                or InstrumentLineKind.Stop
                or InstrumentLineKind.Scale;

    /// <summary>Takes one step, and those that its outputs lead to, one after the other.</summary>
    private void Step(HostLinkInput first, Moment now)
    {
        inputs.Enqueue(first);
        if (stepping)
            return;
        stepping = true;
        try
        {
            while (inputs.TryDequeue(out var input))
            {
                if (ended)
                    continue;
                var step = HostLink.Step(link, input);
                link = step.State;
                foreach (var output in step.Outputs)
                {
                    if (!ended)
                        Do(output, now);
                }
            }
        }
        finally
        {
            stepping = false;
        }

        ShowPhase();
    }

    private void End(PortPhase phase, string message)
    {
        ended = true;
        around.EndLine(phase, message);
    }
}
