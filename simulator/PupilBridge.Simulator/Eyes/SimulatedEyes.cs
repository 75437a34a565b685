using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Eyes;

/// <summary>
/// Two eyes of known truth that answer to light and to a near target. A pure function of the truth, the seed and the scenes
/// shown: integrated in steps of 10 ms, so that it does not matter in what portions the time is given.
/// </summary>
/// <remarks>
/// The published parts: the steady size (<see cref="SteadySize"/>), the latency (<see cref="ReflexLatency"/>), the iris and
/// the delayed feedback of the pupil's own area on the light that it admits (Longtin and Milton 1989; named in the iris's
/// code). The two eyes' fluxes F are joined as 0.1·(F_R^p + F_L^p)^(1/p) with p = log10 2: our interpolation between the two
/// published points, one eye lit (0.1·F) and both alike (F). Both pupils get the same central command, so the consensual
/// response equals the direct one but for each eye's own efferent gain.
/// </remarks>
public sealed class SimulatedEyes
{
    /// <summary>The step of integration.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromMilliseconds(10);

    private const double JoinPower = 0.30102999566398120;
    private const double UnrestSeconds = 1.5;
    private const double NearSeconds = 0.4;

    private readonly PerEye<AfferentPath> paths;
    private readonly PerEye<Iris> irises;
    private readonly Chance chance;
    private TimeSpan reached;
    private TimeSpan owed;
    private double unrest;
    private double near;

    /// <summary>Starts with eyes that are settled in a scene.</summary>
    /// <param name="truth">What is true of the eyes.</param>
    /// <param name="scene">What they have been looking at.</param>
    /// <param name="seed">Seed of the unrest.</param>
    public SimulatedEyes(PatientTruth truth, Scene scene, long seed)
    {
        ArgumentNullException.ThrowIfNull(truth);
        ArgumentNullException.ThrowIfNull(scene);
        Truth = truth;
        Scene = scene;
        chance = new Chance(seed, "unrest");
        near = scene.NearTarget ? 1 : 0;
        paths = truth.Eyes.Select((eye, t) => new AfferentPath(t.AfferentLossLogUnits, Light(eye).Flux));
        var settled = CentralMillimetres(paths.Right.ArrivedFlux, paths.Left.ArrivedFlux);
        irises = truth.Eyes.Select((_, t) => new Iris(Asked(t, settled), t.DilationTimes));
    }

    /// <summary>What is true of the eyes.</summary>
    public PatientTruth Truth { get; }

    /// <summary>What is before the eyes from now on.</summary>
    public Scene Scene { get; private set; }

    /// <summary>The size of an eye's pupil now, in millimetres.</summary>
    /// <param name="eye">The eye.</param>
    /// <returns>1.2 to 8.8 mm.</returns>
    public double Millimetres(Eye eye) => irises[eye].Millimetres;

    /// <summary>Changes what is before the eyes.</summary>
    /// <param name="scene">The scene from now on.</param>
    public void Show(Scene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        Scene = scene;
        foreach (var eye in EyeFacts.Both)
        {
            var light = Light(eye);
            paths[eye].Receive(reached, light.Luminance, light.Flux);
        }
    }

    /// <summary>Lets time pass.</summary>
    /// <param name="time">How much, 0 or more; what is less than a step is owed to the next call.</param>
    public void Advance(TimeSpan time)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(time, TimeSpan.Zero);
        for (owed += time; owed >= Step; owed -= Step)
        {
            reached += Step;
            StepOnce(Step.TotalSeconds);
        }
    }

    private void StepOnce(double seconds)
    {
        foreach (var eye in EyeFacts.Both)
        {
            paths[eye].Step(reached, seconds);
        }

        near += ((Scene.NearTarget ? 1 : 0) - near) * seconds / NearSeconds;
        unrest +=
            (-unrest * seconds / UnrestSeconds)
            + (Truth.UnrestMillimetres * Math.Sqrt(2 * seconds / UnrestSeconds) * chance.NextGaussian());

        var setPoint = CentralMillimetres(paths.Right.ArrivedFlux, paths.Left.ArrivedFlux);
        var central = CentralMillimetres(Drive(Eye.Right, setPoint), Drive(Eye.Left, setPoint)) + unrest;
        foreach (var eye in EyeFacts.Both)
        {
            irises[eye].Step(Asked(Truth.Eyes[eye], central), seconds);
        }
    }

    // What an eye's light counts for now: adaptation raises it after a rise; and while the pupil is still wider than it will
    // be, more light comes through than the steady formula reckons with (the delayed feedback). Both fade to 1.
    private double Drive(Eye eye, double setPoint)
    {
        var widening = irises[eye].DelayedMillimetres / Math.Clamp(Asked(Truth.Eyes[eye], setPoint), 1.2, 8.8);
        return paths[eye].ArrivedFlux * paths[eye].Rise * widening * widening;
    }

    private double CentralMillimetres(double rightFlux, double leftFlux)
    {
        var sum = Math.Pow(rightFlux, JoinPower) + Math.Pow(leftFlux, JoinPower);
        return SteadySize.Millimetres(SteadySize.OneEye * Math.Pow(sum, 1 / JoinPower), Truth.AgeYears);
    }

    private double Asked(EyeTruth eye, double central)
    {
        var undriven = eye.UndrivenMillimetres ?? Truth.DarkMillimetres;
        var byLight = undriven - (eye.LightGain * (Truth.DarkMillimetres - central)) + eye.SizeOffsetMillimetres;
        return byLight - (eye.NearGain * Truth.NearResponseMillimetres * near);
    }

    private LightField Light(Eye eye)
    {
        var room = Lighting.Room(Scene.RoomLux);
        var lamp = Lighting.Lamp(Scene.LampPercent[eye]);

        // Fluxes add; the latency goes by the brighter of the two fields.
        var luminance = Math.Max(room.Luminance, lamp.Luminance);
        return luminance > 0 ? new LightField(luminance, (room.Flux + lamp.Flux) / luminance) : default;
    }
}
