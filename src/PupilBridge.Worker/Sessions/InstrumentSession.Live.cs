using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Sessions;

/// <content>What is shown at once.</content>
internal sealed partial class InstrumentSession
{
    private TickTimes clock = new();
    private LiveInstrument? live;
    private (PortPhase Phase, string Message)? shown;
    private string refusal = "";
    private string doubt = "";
    private int silentRounds;
    private bool connected;
    private TimeSpan connectedAt;

    private void ShowMet(InstrumentIdentity identity, Moment now)
    {
        clock = around.Ticks(identity.Serial);
        live = new LiveInstrument
        {
            Serial = identity.Serial,
            Model = identity.Model,
            Firmware = identity.Firmware,
            Abilities = identity.Abilities,
            Boot = identity.Boot,
            Port = settings.Port,
            IsConnected = false,
            HeardAt = now.Utc,
        };
        around.Show(live);
    }

    private void Update(Func<LiveInstrument, LiveInstrument> change)
    {
        if (live is null)
            return;
        live = change(live);
        around.Show(live);
    }

    /// <summary>Shows the port's phase when it, or its reason, has changed.</summary>
    private void ShowPhase()
    {
        if (ended)
            return;
        var now = link.Phase switch
        {
            HostLinkPhase.Connected => (PortPhase.Live, doubt),
            HostLinkPhase.Placing when asked is not null => (
                PortPhase.Greeting,
                "The instrument waits until earlier events are on disk."
            ),
            HostLinkPhase.Held => (PortPhase.HeldByOther, refusal),
            HostLinkPhase.NoVersion => (PortPhase.NoCommonVersion, refusal),
            _ when silentRounds > 0 => (PortPhase.Silent, refusal),
            _ => (PortPhase.Greeting, ""),
        };
        if (shown == now)
            return;
        shown = now;
        around.Show(now.Item1, now.Item2);
    }
}
