using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Simulator.Lines;

/// <content>A service technician at the instrument, with discs in place of eyes.</content>
public sealed partial class ServedInstrument
{
    private SimulatedBench? bench;

    /// <summary>Lets a technician measure one disc, until the scale is home again.</summary>
    /// <param name="technician">The technician, at this instrument.</param>
    /// <param name="eye">By which scale.</param>
    /// <param name="millimetres">The disc's diameter, in mm.</param>
    /// <param name="cancel">Gives up waiting; the hand goes on.</param>
    /// <returns>Done when the scale is home.</returns>
    public async Task MeasureDiscAsync(SimulatedBench technician, Eye eye, double millimetres, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(technician);
        lock (gate)
        {
            bench = technician;
            technician.Put(eye, millimetres);
        }

        await UntilAsync(() => !technician.IsBusy, cancel).ConfigureAwait(false);
    }
}
