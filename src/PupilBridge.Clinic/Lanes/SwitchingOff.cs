using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

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
        var live = house.Look().Instruments.FirstOrDefault(instrument => instrument.Serial == serial);
        if (live is not { IsConnected: true })
        {
            return new SwitchOffOutcome(false, ClinicText.Lane.Get("SwitchOff.NotConnected", serial));
        }

        if (!live.Abilities.HasFlag(InstrumentAbilities.SwitchOff))
        {
            return new SwitchOffOutcome(false, ClinicText.Lane.Get("SwitchOff.Cannot", serial));
        }

        var ending = await house.SwitchOffAsync(serial, who, cancellation).ConfigureAwait(false);
        return new SwitchOffOutcome(
            ending.Outcome == CommandOutcome.Done,
            ClinicText.Lane.Of("SwitchOff", ending.Outcome, serial, ending.Reason).TrimEnd()
        );
    }
}
