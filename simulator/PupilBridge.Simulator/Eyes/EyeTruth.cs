using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Eyes;

/// <summary>The outline of a simulated pupil.</summary>
public enum PupilShape
{
    /// <summary>Round.</summary>
    Round = 1,

    /// <summary>Oval.</summary>
    Oval = 2,

    /// <summary>Irregular in another way.</summary>
    Irregular = 3,
}

/// <summary>What is true of one simulated eye. The default is an eye without any defect.</summary>
public sealed record EyeTruth
{
    /// <summary>
    /// How much the eye's light signal is weakened on its way to the midbrain, in log units, as by a neutral-density filter
    /// before that eye: 0 (not at all) to 6 (as good as blind). It weakens what both pupils do.
    /// </summary>
    public double AfferentLossLogUnits { get; init; }

    /// <summary>How much of the light reflex reaches this pupil: 1 all, 0 a pupil that light does not move.</summary>
    public double LightGain { get; init; } = 1;

    /// <summary>How much of the near response reaches this pupil: 1 all, 0 none.</summary>
    public double NearGain { get; init; } = 1;

    /// <summary>How much larger (or smaller) than the formula this pupil is at every light, in millimetres.</summary>
    public double SizeOffsetMillimetres { get; init; }

    /// <summary>
    /// The size towards which the pupil goes as its light gain falls to 0, in millimetres; null stands for the size in
    /// complete darkness at the person's age.
    /// </summary>
    public double? UndrivenMillimetres { get; init; }

    /// <summary>
    /// How many times as long as another pupil this one takes to widen: 1 for one without a defect, more for one whose
    /// dilator is weak, which lags behind in the dark. A way of our own to make such a lag; no source.
    /// </summary>
    public double DilationTimes { get; init; } = 1;

    /// <summary>The outline.</summary>
    public PupilShape Shape { get; init; } = PupilShape.Round;
}

/// <summary>What is true of one simulated person's pupils.</summary>
public sealed record PatientTruth
{
    /// <summary>What the truth amounts to, in a few words.</summary>
    public required string Label { get; init; }

    /// <summary>Age in years, 1 or more.</summary>
    public required double AgeYears { get; init; }

    /// <summary>The two eyes.</summary>
    public required PerEye<EyeTruth> Eyes { get; init; }

    /// <summary>How much both pupils narrow when a near target is fixated, in millimetres; our assumption, no source.</summary>
    public double NearResponseMillimetres { get; init; } = 1.4;

    /// <summary>
    /// Standard deviation of the pupils' slow unrest (hippus), common to both eyes, in millimetres; our assumption.
    /// </summary>
    public double UnrestMillimetres { get; init; } = 0.05;

    /// <summary>The size in complete darkness at this age, in millimetres.</summary>
    public double DarkMillimetres => SteadySize.Millimetres(0, AgeYears);
}
