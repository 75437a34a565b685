using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Eyes;

/// <summary>A light field as one eye sees it.</summary>
/// <param name="Luminance">Luminance in cd/m², 0 or more.</param>
/// <param name="AreaSquareDegrees">Area in deg².</param>
public readonly record struct LightField(double Luminance, double AreaSquareDegrees)
{
    /// <summary>Luminance times area, in cd·m⁻²·deg².</summary>
    public double Flux => Luminance * AreaSquareDegrees;
}

/// <summary>
/// What the room and the lamps put before the eyes. The figures are assumptions of ours, chosen so that a lamp in a dim
/// room narrows a young adult's pupil by a third or a little more (the starting light that UK teaching texts on the swinging-flashlight
/// test ask for).
/// </summary>
public static class Lighting
{
    /// <summary>The room: a diffusely lit field of 60° across.</summary>
    public static readonly double RoomAreaSquareDegrees = SteadySize.DiscAreaSquareDegrees(60);

    /// <summary>A lamp: a diffuse field of 20° across.</summary>
    public static readonly double LampAreaSquareDegrees = SteadySize.DiscAreaSquareDegrees(20);

    /// <summary>Luminance of a lamp at full output, in cd/m².</summary>
    public const double LampLuminance = 300;

    /// <summary>The share of light that the room's surfaces throw back.</summary>
    public const double RoomReflectance = 0.5;

    /// <summary>The field that a room of a given illuminance is; a diffuse surface has L = E·ρ/π.</summary>
    /// <param name="lux">Illuminance in lux, 0 or more.</param>
    /// <returns>The field.</returns>
    public static LightField Room(double lux)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(lux);
        return new LightField(lux * RoomReflectance / Math.PI, RoomAreaSquareDegrees);
    }

    /// <summary>The field that a lamp before an eye is.</summary>
    /// <param name="levelPercent">Output, 0 (off) to 100 %.</param>
    /// <returns>The field.</returns>
    public static LightField Lamp(int levelPercent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(levelPercent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(levelPercent, 100);
        return new LightField(LampLuminance * levelPercent / 100.0, LampAreaSquareDegrees);
    }
}

/// <summary>What is before the two eyes at one moment.</summary>
/// <param name="RoomLux">Illuminance of the room in lux.</param>
/// <param name="LampPercent">Output of each eye's lamp, 0 to 100 %.</param>
/// <param name="NearTarget">Whether a near target is fixated.</param>
public sealed record Scene(double RoomLux, PerEye<int> LampPercent, bool NearTarget)
{
    /// <summary>A room without lamps, far fixation.</summary>
    /// <param name="lux">Illuminance in lux.</param>
    /// <returns>The scene.</returns>
    public static Scene Room(double lux) => new(lux, new PerEye<int> { Right = 0, Left = 0 }, NearTarget: false);

    /// <summary>The same scene with a lamp on in one eye only.</summary>
    /// <param name="eye">The eye lit.</param>
    /// <param name="percent">Output, 0 to 100 %.</param>
    /// <returns>The scene.</returns>
    public Scene Lit(Eye eye, int percent) =>
        this with
        {
            LampPercent = new PerEye<int> { Right = 0, Left = 0 }.With(eye, percent),
        };
}
