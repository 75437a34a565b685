using System.Globalization;
using System.Text;
using PupilBridge.Conformance.Lines;
using PupilBridge.Conformance.Tracing;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Conformance.Steps;

/// <summary>
/// The suite's own host: it says what it is told to, right or wrong, keeps all that crossed, and waits. It knows nothing of the
/// product's link, so that the two are not checked against each other.
/// </summary>
/// <param name="wire">The opened line.</param>
/// <param name="tell">Takes each line as it crosses, to be recorded; null for nobody.</param>
internal sealed class RawHost(IWire wire, Action<WireLine>? tell)
{
    private readonly LineSplitter splitter = new(LineWay.FromInstrument);
    private readonly LineSplitter own = new(LineWay.FromHost);
    private readonly List<Crossed> log = [];
    private bool inRun;

    /// <summary>The host that examines.</summary>
    public static string Own { get; } = Greeter.BenchHost.ToString();

    /// <summary>Another host, whose part the suite plays too.</summary>
    public static string Other { get; } = new HostId(Greeter.BenchHost.Value + 1).ToString();

    public IReadOnlyList<Crossed> Log => log;

    /// <summary>The number of the next line in <see cref="Log"/>.</summary>
    public int Mark => log.Count;

    public TimeSpan Now => wire.Now;

    /// <summary>The lines of the instrument since a mark.</summary>
    public IEnumerable<Crossed> Since(int mark) => log.Skip(mark).Where(c => c.IsFromInstrument);

    /// <summary>Sends a line with its check.</summary>
    public ValueTask SayAsync(string body) => SayTextAsync(WithCheck(body) + "\n");

    /// <summary>Sends characters as they are.</summary>
    public async ValueTask SayTextAsync(string text)
    {
        var bytes = Encoding.Latin1.GetBytes(text);
        await wire.WriteAsync(bytes).ConfigureAwait(false);
        foreach (var line in own.Take(bytes, wire.Now))
        {
            Keep(new Crossed(line, default, default));
        }
    }

    public static string WithCheck(string body) =>
        string.Create(CultureInfo.InvariantCulture, $"{body}*{LineCrc.Of(Encoding.ASCII.GetBytes(body)):X8}");

    /// <summary>Listens for a while.</summary>
    public Task ListenAsync(double seconds, CancellationToken cancel) =>
        UntilAsync(_ => false, log.Count, seconds, cancel);

    /// <summary>Waits for a line of the instrument.</summary>
    /// <param name="isIt">Whether it is the one.</param>
    /// <param name="mark">From where on in the log it counts.</param>
    /// <param name="seconds">The longest wait.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The line; null if it did not come.</returns>
    public async Task<Crossed?> UntilAsync(Func<Crossed, bool> isIt, int mark, double seconds, CancellationToken cancel)
    {
        var end = wire.Now + TimeSpan.FromSeconds(seconds);
        var looked = mark;
        while (true)
        {
            for (; looked < log.Count; looked++)
            {
                if (log[looked].IsFromInstrument && isIt(log[looked]))
                {
                    return log[looked];
                }
            }

            if (wire.Now >= end)
            {
                return null;
            }

            var arrived = await wire.ReadAsync(end, cancel).ConfigureAwait(false);
            foreach (var line in splitter.Take(arrived.Bytes.Span, arrived.At))
            {
                Hear(line);
            }
        }
    }

    private void Hear(WireLine line)
    {
        var isRest = inRun;
        inRun = !line.IsEnded;
        if (isRest || !line.IsEnded)
        {
            Keep(new Crossed(line, default, new LineFault(LineFaultKind.TooLong, 0)));
            return;
        }

        if (line.Bytes.IsEmpty)
        {
            Keep(new Crossed(line, default, default));
            return;
        }

        InstrumentLineDecoder.TryDecode(line.Bytes.Span, out var said, out var fault);
        Keep(new Crossed(line, said, fault));
    }

    private void Keep(Crossed crossed)
    {
        log.Add(crossed);
        tell?.Invoke(crossed.Line);
    }
}
