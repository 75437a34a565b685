using PupilBridge.Cohort.Population;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Truth;

/// <summary>What two eyes truly do, without unrest and without anybody looking.</summary>
internal sealed class TrueEyes(PatientTruth truth)
{
    private readonly PatientTruth still = truth with { UnrestMillimetres = 0 };

    /// <summary>The sizes once settled in a room.</summary>
    public PerEye<double> Settled(int lux) => Sizes(new SimulatedEyes(still, Scene.Room(lux), 0));

    /// <summary>Right less left, settled in a room, in mm.</summary>
    public double Difference(int lux) => Settled(lux) is var sizes ? sizes.Right - sizes.Left : 0;

    /// <summary>Right less left 5 s and 15 s after the room went from bright to dim, in mm.</summary>
    public (double At5, double At15) AfterDarkening()
    {
        var eyes = new SimulatedEyes(still, Scene.Room(Rooms.BrightLux), 0);
        eyes.Show(Scene.Room(Rooms.DimLux));
        eyes.Advance(TimeSpan.FromSeconds(5));
        var at5 = Sizes(eyes);
        eyes.Advance(TimeSpan.FromSeconds(10));
        var at15 = Sizes(eyes);
        return (at5.Right - at5.Left, at15.Right - at15.Left);
    }

    /// <summary>By which part both pupils narrow within a second of light in one eye, in the dim room.</summary>
    public PerEye<double> Narrowing(Eye lit)
    {
        var room = Scene.Room(Rooms.DimLux);
        var eyes = new SimulatedEyes(still, room, 0);
        var start = Sizes(eyes);
        var smallest = start;
        eyes.Show(room.Lit(lit, 100));
        for (var step = 0; step < 100; step++)
        {
            eyes.Advance(SimulatedEyes.Step);
            smallest = smallest.Select((eye, size) => Math.Min(size, eyes.Millimetres(eye)));
        }

        return start.Select((eye, size) => (size - smallest[eye]) / size);
    }

    /// <summary>By which part each pupil narrows to near, in the dim room.</summary>
    public PerEye<double> NarrowingToNear()
    {
        var eyes = new SimulatedEyes(still, Scene.Room(Rooms.DimLux), 0);
        var start = Sizes(eyes);
        eyes.Show(Scene.Room(Rooms.DimLux) with { NearTarget = true });
        eyes.Advance(TimeSpan.FromSeconds(4));
        return start.Select((eye, size) => Math.Max(0, (size - eyes.Millimetres(eye)) / size));
    }

    private static PerEye<double> Sizes(SimulatedEyes eyes) =>
        new() { Right = eyes.Millimetres(Eye.Right), Left = eyes.Millimetres(Eye.Left) };
}
