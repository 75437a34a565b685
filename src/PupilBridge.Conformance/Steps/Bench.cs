using System.Globalization;
using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>What the steps of a run share: the host, the report, and who was met.</summary>
internal sealed class Bench(RawHost host, CheckReport report, CheckPlan plan, CancellationToken cancel)
{
    private uint lastCommand;
    private IdentityHead identity;
    private int looked;

    public RawHost Host { get; } = host;

    /// <summary>Takes what is found now.</summary>
    public CheckReport Report { get; private set; } = report;

    /// <summary>What failed once and passed when it was tried again, as on a line that loses something.</summary>
    public List<CheckResult> Unsteady { get; } = [];

    /// <summary>The slowest answer to a greeting; null before the first.</summary>
    public (TimeSpan Took, Crossed Line)? Slowest { get; private set; }

    public CheckPlan Plan { get; } = plan;

    public CancellationToken Cancel { get; } = cancel;

    /// <summary>The events that were asked for to fill the memory: after the one number, up to the other.</summary>
    public (long After, long To)? Filling { get; set; }

    /// <summary>What was done at the instrument, and told.</summary>
    public HashSet<HandTask> Done { get; } = [];

    /// <summary>What was done at the instrument without an event that told it.</summary>
    public HashSet<HandTask> DoneInVain { get; } = [];

    /// <summary>The latest good <c>ID</c>; the default before the first.</summary>
    public IdentityHead Identity
    {
        get
        {
            for (; looked < Host.Log.Count; looked++)
            {
                identity = Host.Log[looked].Is(InstrumentLineKind.Identity) ? Host.Log[looked].Said.Identity : identity;
            }

            return identity;
        }
    }

    public string Boot => Identity.Boot.ToString();

    /// <summary>The latest heartbeat; the default before the first.</summary>
    public Heartbeat Beat =>
        Host.Log.LastOrDefault(c => c.Is(InstrumentLineKind.Beat)) is { } beat ? beat.Said.Beat : default;

    /// <summary>Whether the instrument keeps anything at all.</summary>
    public bool IsAnythingKept => Beat.Last >= Beat.OldestKept && Beat.Last > 0;

    public ValueTask SayAsync(string type, string host, params string[] fields) =>
        Host.SayAsync(string.Join(',', [type, host, .. fields]));

    /// <summary>Greets rightly and lets the instrument send all that follows.</summary>
    /// <returns>The <c>ID</c>; null if none came.</returns>
    public async Task<Crossed?> GreetAsync(string? host = null, string word = "WHO")
    {
        var (mark, asked) = (Host.Mark, Host.Now);
        await SayAsync(word, host ?? RawHost.Own, "1", "1").ConfigureAwait(false);
        var id = await IdentityAsync(mark, 1.5).ConfigureAwait(false);
        if (id is not null && id.At - asked > (Slowest?.Took ?? TimeSpan.Zero))
        {
            Slowest = (id.At - asked, id);
        }

        await QuietAsync().ConfigureAwait(false);
        return id;
    }

    /// <summary>Examines something, and again if it fails: what the line lost is not charged to the instrument.</summary>
    /// <param name="examine">The examination; it must be able to begin anew at any time.</param>
    public async Task TryAsync(Func<Bench, Task> examine)
    {
        var whole = Report;
        var turns = new Turns();
        do
        {
            if (turns.Any)
            {
                await RecoverAsync().ConfigureAwait(false);
            }

            Report = new CheckReport();
            await examine(this).ConfigureAwait(false);
            turns.Add(Report);
        } while (turns.IsOpen);
        Report = whole;
        Unsteady.AddRange(turns.Unsteady);
        foreach (var result in turns.Settled())
        {
            Report.Take(result);
        }
    }

    /// <summary>Gets hold of the instrument again, whatever happened to it or to the line.</summary>
    private async Task RecoverAsync()
    {
        for (var i = 0; i < 6; i++)
        {
            if (await GreetAsync(word: "TAKE").ConfigureAwait(false) is not null)
            {
                return;
            }
        }
    }

    /// <summary>Waits for an <c>ID</c> since a mark.</summary>
    public Task<Crossed?> IdentityAsync(int mark, double seconds) =>
        Host.UntilAsync(c => c.Is(InstrumentLineKind.Identity), mark, seconds, Cancel);

    /// <summary>Waits until the instrument has sent what it had to send: no line but heartbeats for a while.</summary>
    public async Task QuietAsync()
    {
        for (var i = 0; i < 40; i++)
        {
            var mark = Host.Mark;
            await Host.ListenAsync(0.25, Cancel).ConfigureAwait(false);
            if (Host.Since(mark).All(c => c.Is(InstrumentLineKind.Beat) || c.Is(InstrumentLineKind.Position)))
            {
                return;
            }
        }
    }

    /// <summary>A heartbeat that was surely made after what was said before.</summary>
    /// <returns>The heartbeat; null if none came in time.</returns>
    public async Task<Crossed?> NextBeatAsync()
    {
        await Host.ListenAsync(0.15, Cancel).ConfigureAwait(false);
        return await Host.UntilAsync(c => c.Is(InstrumentLineKind.Beat), Host.Mark, 1.7, Cancel).ConfigureAwait(false);
    }

    /// <summary>Renews the hold and changes nothing else; greets an instrument that started anew (section 13).</summary>
    public ValueTask KeepHoldAsync() =>
        Beat.Boot == Identity.Boot ? SayAsync("ACK", RawHost.Own, Boot, "0") : SayAsync("WHO", RawHost.Own, "1", "1");

    /// <summary>Listens for long as the holder.</summary>
    public async Task ListenHoldingAsync(double seconds)
    {
        for (var left = seconds; left > 0; left -= 2.5)
        {
            await KeepHoldAsync().ConfigureAwait(false);
            await Host.ListenAsync(Math.Min(left, 2.5), Cancel).ConfigureAwait(false);
        }
    }

    /// <summary>A number that this host has not used with this instrument before: tenths of a second of the calendar.</summary>
    public uint NewCommand()
    {
        var drawn = (uint)(Plan.Started.ToUnixTimeMilliseconds() / 100 % 4_000_000_000) + 1;
        lastCommand = lastCommand == 0 ? drawn : lastCommand + 1;
        return lastCommand;
    }

    public static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Text(FormattableString text) => FormattableString.Invariant(text);
}
