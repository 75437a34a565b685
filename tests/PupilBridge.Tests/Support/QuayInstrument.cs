using System.Runtime.Versioning;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Tests.Support;

/// <summary>A simulated instrument that is on, at the end of a real pseudo-terminal, at the pace of life.</summary>
[SupportedOSPlatform("linux")]
internal sealed class QuayInstrument : IAsyncDisposable
{
    private readonly PseudoTerminal terminal;
    private readonly ServedInstrument served;
    private readonly CancellationTokenSource stop = new();
    private readonly Task running;

    public QuayInstrument(string link, string serial = "QA-1")
    {
        terminal = new PseudoTerminal(link);
        var instrument = new SimulatedInstrument(InstrumentModels.QuayA, new SerialNumber(serial), seed: 5);
        served = new ServedInstrument(instrument, terminal, TimeProvider.System);
        served.With(i =>
        {
            i.SwitchOn();
            return true;
        });
        running = served.RunAsync(stop.Token);
        Port = link;
        Serial = serial;
    }

    public string Port { get; }

    public string Serial { get; }

    public Task AllAcknowledged() => served.WhenAllAcknowledgedAsync(Deadline()).AsTask();

    public Task Greeted() => served.WhenGreetedAsync(Deadline());

    public void TurnDial(InstrumentMode mode) =>
        served.With(i =>
        {
            i.TurnDialTo(i.Model.Stop(mode)!.Value);
            return true;
        });

    /// <summary>Turns the dial and waits until it stands there.</summary>
    public async Task DialTurned(InstrumentMode mode)
    {
        TurnDial(mode);
        await Eventually.Is(() => served.With(i => !i.IsDialTurning && i.Mode == mode));
        await AllAcknowledged();
    }

    /// <summary>Sets both edges of something so wide, with the scale of an eye and its mark keys; in steps of 10 µm.</summary>
    public async Task SetEdges(Eye eye, int micrometres)
    {
        const int Nasal = 5_000;
        await Mark(eye, PupilEdge.Nasal, Nasal);
        await Mark(eye, PupilEdge.Temporal, Nasal + micrometres);
    }

    private async Task Mark(Eye eye, PupilEdge edge, int position)
    {
        served.With(i =>
        {
            i.SlideTo(eye, position, micrometresPerSecond: 500_000);
            return true;
        });
        await Eventually.Is(() =>
            Task.FromResult(served.With(i => !i.IsScaleMoving(eye) && i.ScalePosition(eye).Value == position))
        );
        served.With(i =>
        {
            i.PressMark(eye, edge);
            return true;
        });
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running;
        await served.DisposeAsync();
        await terminal.DisposeAsync();
        stop.Dispose();
    }

    private static CancellationToken Deadline() => new CancellationTokenSource(TimeSpan.FromSeconds(30)).Token;
}
