using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Voyage.Model;

/// <summary>Up to which event each boot of each instrument was told that all is on disk, as the instruments themselves heard it.</summary>
internal sealed class ToldInstruments
{
    private readonly Dictionary<(SerialNumber Serial, BootNumber Boot), long> acknowledged = [];

    /// <summary>The last number acknowledged of each boot.</summary>
    public IReadOnlyDictionary<(SerialNumber Serial, BootNumber Boot), long> Acknowledged => acknowledged;

    /// <summary>Listens to what an instrument has heard by now; to be called after each of its steps.</summary>
    public void Listen(SimulatedInstrument instrument)
    {
        if (instrument.Power == PowerState.Off || instrument.Link.Acknowledged == 0)
            return;
        var key = (instrument.Serial, instrument.Link.Boot);
        acknowledged[key] = Math.Max(acknowledged.GetValueOrDefault(key), instrument.Link.Acknowledged);
    }
}
