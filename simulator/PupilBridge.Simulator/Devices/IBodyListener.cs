using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Devices;

/// <summary>Hears what an instrument's body does: its link, its lamps' light, its oracle.</summary>
internal interface IBodyListener
{
    /// <summary>Something happened that must reach the host.</summary>
    void Happened(in InstrumentEvent happened);

    /// <summary>A scale moves.</summary>
    void Moved(LivePosition position);
}
