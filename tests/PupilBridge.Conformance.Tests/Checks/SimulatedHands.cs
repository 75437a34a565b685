using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Hands that do at a simulated instrument what the suite asks for.</summary>
internal sealed class SimulatedHands(SimulatedInstrument instrument) : IBenchHands
{
    public TimeSpan Patience => TimeSpan.FromSeconds(8);

    public bool WasDone(HandTask task) => true;

    public bool Ask(HandTask task)
    {
        switch (task)
        {
            case HandTask.TurnDial:
                // A hand at the dial touches a key, too: a firmware that has one and does not claim it gives itself away.
                instrument.PressMark(Eye.Left, PupilEdge.Nasal);
                Turn(instrument.Mode == InstrumentMode.Measure ? InstrumentMode.Idle : InstrumentMode.Measure);
                break;
            case HandTask.MoveScales:
                Turn(InstrumentMode.Measure);
                Slide(Eye.Right);
                Slide(Eye.Left);
                break;
            case HandTask.MarkEdge:
                instrument.PressMark(Eye.Right, PupilEdge.Nasal);
                break;
            case HandTask.LightLamp:
                Turn(InstrumentMode.Sequence);
                break;
            case HandTask.ChangeRoom:
                instrument.SetRoom(instrument.RoomLux > 50 ? 2 : 300);
                break;
            case HandTask.ChangeFixation:
                instrument.Fixate(!instrument.NearTarget);
                break;
            case HandTask.SwingLens:
                instrument.MoveLens(true);
                break;
            case HandTask.FillMemory:
                instrument.ChatterRoom(600);
                break;
            default:
                return false;
        }

        return true;
    }

    private void Turn(InstrumentMode mode) => instrument.TurnDialTo(instrument.Model.Stop(mode)!.Value);

    private void Slide(Eye eye)
    {
        var scale = instrument.Model.Scales[eye];
        var far = scale.Home.Value > 10_000 ? scale.Lowest.Value + 1000 : scale.Highest.Value - 1000;
        instrument.SlideTo(eye, far, 4_000);
    }
}
