using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Hands that do at a simulated instrument what the suite asks for.</summary>
internal sealed class SimulatedHands(SimulatedInstrument instrument) : IBenchHands
{
    private readonly Queue<Action> slides = new();
    private int stillFor;

    public TimeSpan Patience => TimeSpan.FromSeconds(20);

    /// <summary>Slides on when both scales have come to rest; to be called every few milliseconds.</summary>
    public void Act()
    {
        var isMoving = instrument.IsScaleMoving(Eye.Right) || instrument.IsScaleMoving(Eye.Left);
        stillFor = isMoving ? 0 : stillFor + 1;
        if (stillFor > 50 && instrument.Mode == InstrumentMode.Measure && slides.TryDequeue(out var slide))
        {
            stillFor = 0;
            slide();
        }
    }

    public void Thank(HandTask task) => Thanked.Add(task);

    /// <summary>What was told.</summary>
    public List<HandTask> Thanked { get; } = [];

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
                slides.Enqueue(() => SlideBoth(s => s.Lowest));
                slides.Enqueue(() => SlideBoth(s => s.Highest));
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
                Fill();
                break;
            default:
                return false;
        }

        return true;
    }

    private void Turn(InstrumentMode mode) => instrument.TurnDialTo(instrument.Model.Stop(mode)!.Value);

    private void SlideBoth(Func<ScaleDescription, Micrometres> end)
    {
        foreach (var eye in EyeFacts.Both)
        {
            instrument.SlideTo(eye, end(instrument.Model.Scales[eye]).Value, 4_000);
        }
    }

    // A test key: nothing that a sensor would tell.
    private void Fill()
    {
        for (var i = 0; i < 600; i++)
        {
            instrument.PressMark(Eye.Right, PupilEdge.Temporal);
            if (!instrument.Model.Can(InstrumentAbilities.MarkKeys))
            {
                instrument.MoveLens(i % 2 == 0);
            }
        }
    }
}
