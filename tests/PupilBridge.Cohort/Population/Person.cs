using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Cohort.Population;

/// <summary>How long the eyes are left in the dim room.</summary>
public enum DarkPlan
{
    /// <summary>Until both have settled.</summary>
    Settled = 1,

    /// <summary>More than two minutes, as the published sizes by decade ask for.</summary>
    TwoMinutes = 2,

    /// <summary>With sizes about 5 and 15 s, then settled.</summary>
    WithLag = 3,

    /// <summary>Impatient: a few seconds, and the second eye much later than the first.</summary>
    Unequal = 4,
}

/// <summary>The part of an exam in which the patient truly looks near though it should be far.</summary>
public enum NearSlip
{
    /// <summary>Nowhere.</summary>
    None = 0,

    /// <summary>At the sizes in the dim room.</summary>
    DimSizes = 1,

    /// <summary>At the direct responses.</summary>
    Direct = 2,

    /// <summary>At the swinging test.</summary>
    Swinging = 3,
}

/// <summary>One person of the simulated clinic, and what is true of the day: the truth that the oracle knows and the product never sees.</summary>
public sealed record Person
{
    /// <summary>The number within the cohort, from 0.</summary>
    public required int Number { get; init; }

    /// <summary>Seed of all chance of this person's exam.</summary>
    public required long Seed { get; init; }

    /// <summary>What is true of the eyes today.</summary>
    public required PatientTruth Eyes { get; init; }

    /// <summary>What was true at an earlier visit; null if there was none.</summary>
    public PatientTruth? Before { get; init; }

    /// <summary>By how much each pupil truly changed since then, in mm, apart from the scatter between days.</summary>
    public required PerEye<double> ChangeMillimetres { get; init; }

    /// <summary>Illuminance of the bright room at the earlier visit, in lux.</summary>
    public int BrightLuxBefore { get; init; } = Rooms.BrightLux;

    /// <summary>What truly was done to each eye.</summary>
    public required PerEye<EyeConditions> Conditions { get; init; }

    /// <summary>Whether the room is truly bright where the record says dim at the sizes, and the other way round.</summary>
    public bool LightsSwapped { get; init; }

    /// <summary>Where the patient looks near.</summary>
    public NearSlip NearSlip { get; init; }

    /// <summary>How the dim sizes are taken.</summary>
    public DarkPlan Dark { get; init; } = DarkPlan.Settled;

    /// <summary>The block in which one lamp burns for too short or too long a time; none for none.</summary>
    public Block TimingFault { get; init; }

    /// <summary>How long that lamp burns, in parts of what it should.</summary>
    public double TimingFactor { get; init; } = 1;

    /// <summary>How old the last check of the lamps truly is, in days.</summary>
    public required int LampCheckDays { get; init; }

    /// <summary>Whether that check is on record.</summary>
    public bool LampCheckKnown { get; init; } = true;

    /// <summary>Whether the site has measured its luminances.</summary>
    public bool LuminanceMeasured { get; init; } = true;
}

/// <summary>The rooms of the simulated clinic.</summary>
public static class Rooms
{
    /// <summary>The bright room, in lux.</summary>
    public const int BrightLux = 300;

    /// <summary>The dim room, in lux.</summary>
    public const int DimLux = 1;
}
