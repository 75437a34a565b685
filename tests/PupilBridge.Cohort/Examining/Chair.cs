using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Examining;

/// <summary>One lamp that burned, truly.</summary>
/// <param name="Block">The block that it belonged to.</param>
/// <param name="Lit">The eye.</param>
/// <param name="NominalMilliseconds">How long it should have burned.</param>
/// <param name="Milliseconds">How long it did.</param>
/// <param name="Pupils">What both pupils did meanwhile.</param>
internal sealed record Burn(
    Block Block,
    Eye Lit,
    int NominalMilliseconds,
    int Milliseconds,
    PerEye<PupilCourse> Pupils
);

/// <summary>A person's eyes and the record of them, in one time.</summary>
internal sealed class Chair(PatientTruth truth, Recorder record, long seed)
{
    private SimulatedEyes eyes = new(truth, Scene.Room(Population.Rooms.BrightLux), seed);

    public Recorder Record { get; } = record;

    public List<Burn> Burns { get; } = [];

    public double Millimetres(Eye eye) => eyes.Millimetres(eye);

    public void Show(Scene scene) => eyes.Show(scene);

    public void Near(bool isNear) => eyes.Show(eyes.Scene with { NearTarget = isNear });

    public void Pass(int milliseconds)
    {
        eyes.Advance(TimeSpan.FromMilliseconds(milliseconds));
        Record.Pass(milliseconds);
    }

    /// <summary>Time until everything has settled; two seconds of it are lived through, for the pupils' unrest.</summary>
    public void Settle(int milliseconds)
    {
        eyes = new SimulatedEyes(truth, eyes.Scene, unchecked(seed + Record.Clock));
        Record.Pass(milliseconds - 2_000);
        Pass(2_000);
    }

    /// <summary>A lamp in one eye, as the instrument reports it and as the pupils answer.</summary>
    public void Burn(Block block, Eye lit, int nominal, int milliseconds)
    {
        var scene = eyes.Scene;
        Record.Say(InstrumentEvent.LampSwitched(default, lit, true, 100));
        eyes.Show(scene.Lit(lit, 100));
        var (right, left) = (Millimetres(Eye.Right), Millimetres(Eye.Left));
        var course = new PerEye<PupilCourse> { Right = new(right, right, right), Left = new(left, left, left) };
        for (var at = 0; at < milliseconds; at += 10)
        {
            eyes.Advance(TimeSpan.FromMilliseconds(Math.Min(10, milliseconds - at)));
            course = course.Select(
                (eye, c) => c with { Smallest = Math.Min(c.Smallest, Millimetres(eye)), End = Millimetres(eye) }
            );
        }

        Record.Pass(milliseconds);
        Record.Say(InstrumentEvent.LampSwitched(default, lit, false, 0));
        eyes.Show(scene);
        Burns.Add(new(block, lit, nominal, milliseconds, course));
    }
}
