using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Eyes;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.Examiners;

/// <summary>A person sits before an instrument: the instrument's lamps and the room light the eyes.</summary>
internal sealed class Sitting
{
    private readonly SimulatedEyes eyes;

    public Sitting(Scenario scenario, SimulatedInstrument instrument)
    {
        Scenario = scenario;
        Instrument = instrument;
        instrument.SetRoom(scenario.BrightLux);
        eyes = new SimulatedEyes(scenario.Patient, Scene.Room(scenario.BrightLux), scenario.Seed);
    }

    public Scenario Scenario { get; }

    public SimulatedInstrument Instrument { get; }

    public PupilWatch Watch { get; } = new();

    public double Millimetres(Eye eye) => eyes.Millimetres(eye);

    /// <summary>Lets one step of the eyes pass.</summary>
    public void StepOnce()
    {
        Instrument.Advance(SimulatedEyes.Step);
        var lamps = new PerEye<int> { Right = Percent(Eye.Right), Left = Percent(Eye.Left) };
        var scene = new Scene(Instrument.RoomLux, lamps, Instrument.NearTarget);
        if (scene != eyes.Scene)
        {
            eyes.Show(scene);
        }

        eyes.Advance(SimulatedEyes.Step);
        Watch.Look(eyes, Instrument.Block, Instrument.Lit);
    }

    private int Percent(Eye eye) => Instrument.Lit == eye ? Instrument.LampPercent : 0;
}
