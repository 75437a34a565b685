using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Lines;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Console.Tests.LaneApi;

/// <summary>A simulated instrument on a line in memory, a bridge that listens to it, and the web API over that bridge.</summary>
internal sealed class BridgedLane : IAsyncDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-lane-");
    private readonly MemoryLine line = new("lane", TimeProvider.System);
    private readonly MemoryLines lines = new();
    private readonly CancellationTokenSource stop = new();
    private readonly Task life;
    private Bridge bridge;

    public BridgedLane(InstrumentModel model)
    {
        lines.Add(line);
        var instrument = new SimulatedInstrument(model, Serial, seed: 7);
        instrument.SwitchOn();
        Instrument = new ServedInstrument(instrument, line, TimeProvider.System);
        life = Instrument.RunAsync(stop.Token);
        (bridge, Api) = Open();
    }

    public static SerialNumber Serial { get; } = new("QB-0701");

    public ServedInstrument Instrument { get; }

    public ApiInProcess Api { get; private set; }

    /// <summary>The service stops and starts anew on the same data; the instrument lives on.</summary>
    public async Task RestartAsync()
    {
        await Api.DisposeAsync();
        await bridge.DisposeAsync();
        (bridge, Api) = Open();
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await life;
        await Api.DisposeAsync();
        await bridge.DisposeAsync();
        await Instrument.DisposeAsync();
        folder.Delete(recursive: true);
        stop.Dispose();
    }

    private (Bridge, ApiInProcess) Open()
    {
        var options = new BridgeOptions { DataFolder = Path.Combine(folder.FullName, "data") };
        options.Ports.Add(line.Name);
        var opened = Bridge.Open(
            new BridgeParts
            {
                Options = options,
                Openers = new PortOpeners(new PortSettings(), lines).For,
                FindPorts = () => [line.Name],
            }
        );
        var house = new BridgeHouse(opened, isLive: true);
        var clinic = new ClinicDesk(house);
        var api = new ApiInProcess(clinic: clinic, lanes: new LaneDesk(house, clinic, TimeProvider.System));
        return (opened, api.As("MK", "examiner"));
    }
}
