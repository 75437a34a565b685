using System.Globalization;
using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>What the steps of a run share: the host, the report, and who was met.</summary>
internal sealed class Bench(RawHost host, CheckReport report, CheckPlan plan, CancellationToken cancel)
{
    private uint lastCommand;

    public RawHost Host { get; } = host;

    public CheckReport Report { get; } = report;

    public CheckPlan Plan { get; } = plan;

    public CancellationToken Cancel { get; } = cancel;

    /// <summary>What was done at the instrument without an event that told it.</summary>
    public HashSet<HandTask> DoneInVain { get; } = [];

    /// <summary>The first good <c>ID</c>.</summary>
    public IdentityHead Identity { get; set; }

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
        var mark = Host.Mark;
        await SayAsync(word, host ?? RawHost.Own, "1", "1").ConfigureAwait(false);
        var id = await IdentityAsync(mark, 1.5).ConfigureAwait(false);
        await QuietAsync().ConfigureAwait(false);
        return id;
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
            if (!Host.Since(mark).Any(c => c.Is(InstrumentLineKind.Event)))
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

    /// <summary>Renews the hold and changes nothing else.</summary>
    public ValueTask KeepHoldAsync() => SayAsync("ACK", RawHost.Own, Boot, "0");

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
