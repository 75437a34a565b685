using PupilBridge.Conformance.Lines;

namespace PupilBridge.Conformance.Tracing;

/// <summary>Listens to a wire and tells each line as it ends.</summary>
/// <param name="wire">The opened line.</param>
/// <param name="greeter">What greets; null to say nothing at all.</param>
/// <param name="tell">Takes each line, in the order in which they crossed.</param>
public sealed class Listening(IWire wire, Greeter? greeter, Action<WireLine> tell)
{
    private readonly LineSplitter heard = new(LineWay.FromInstrument);

    /// <summary>Listens until a moment, or until it is given up; what had begun then is told as not ended.</summary>
    /// <param name="until">The moment, since the port was opened.</param>
    /// <param name="cancel">Ends it early, in order.</param>
    /// <returns>Done when it ended.</returns>
    /// <exception cref="Ports.PortLostException">The port is lost; everything before was told.</exception>
    public async Task RunAsync(TimeSpan until, CancellationToken cancel)
    {
        try
        {
            while (wire.Now < until)
            {
                await SayAsync().ConfigureAwait(false);
                var wake = greeter is not null && greeter.Next < until ? greeter.Next : until;
                var arrived = await wire.ReadAsync(wake, cancel).ConfigureAwait(false);
                foreach (var line in heard.Take(arrived.Bytes.Span, arrived.At))
                {
                    Hear(line);
                }
            }
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            // Ctrl-C is how a listener leaves.
        }
        finally
        {
            if (heard.Rest(wire.Now) is { } rest)
            {
                tell(rest);
            }
        }
    }

    private async ValueTask SayAsync()
    {
        var bytes = greeter?.Say(wire.Now) ?? default;
        if (!bytes.IsEmpty)
        {
            await wire.WriteAsync(bytes).ConfigureAwait(false);
            tell(new WireLine(wire.Now, LineWay.FromHost, bytes[..^1], IsEnded: true));
        }
    }

    private void Hear(WireLine line)
    {
        tell(line);
        if (line.IsEnded)
        {
            greeter?.Hear(line.Bytes.Span, line.At);
        }
    }
}
