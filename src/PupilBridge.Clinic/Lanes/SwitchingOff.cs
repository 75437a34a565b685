using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker;

namespace PupilBridge.Clinic.Lanes;

/// <summary>Asks an instrument to switch itself off, and says how that ended.</summary>
internal static class SwitchingOff
{
    /// <summary>Asks.</summary>
    public static async Task<SwitchOffOutcome> AskAsync(
        IClinicHouse house,
        SerialNumber serial,
        PersonId who,
        CancellationToken cancellation
    )
    {
        var ending = await house.SwitchOffAsync(serial, who, cancellation).ConfigureAwait(false);
        return new SwitchOffOutcome(
            ending.Result == SwitchOffResult.Done,
            ClinicText.Lane.Of("SwitchOff", ending.Result, serial)
        );
    }
}
