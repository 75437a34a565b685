using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Tests.Eyes;

internal static class Persons
{
    public static readonly Scene Dim = Scene.Room(2);

    public static PatientTruth Quiet(EyeTruth? right = null, EyeTruth? left = null, double age = 30) =>
        new()
        {
            Label = "test",
            AgeYears = age,
            UnrestMillimetres = 0,
            Eyes = new PerEye<EyeTruth> { Right = right ?? new EyeTruth(), Left = left ?? new EyeTruth() },
        };

    public static double[] Record(SimulatedEyes eyes, Eye eye, double seconds)
    {
        var samples = new double[(int)(seconds * 100)];
        for (var i = 0; i < samples.Length; i++)
        {
            eyes.Advance(SimulatedEyes.Step);
            samples[i] = eyes.Millimetres(eye);
        }

        return samples;
    }
}
