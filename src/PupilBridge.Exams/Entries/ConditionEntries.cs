using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>What may be amiss with an eye before the test. Several may hold at once; 0 is nothing remarkable.</summary>
[Flags]
public enum EyeConditions
{
    /// <summary>Someone looked, and nothing of the below holds.</summary>
    None = 0,

    /// <summary>The eye is a prosthesis.</summary>
    Prosthesis = 1,

    /// <summary>The eye is patched.</summary>
    Patch = 2,

    /// <summary>Drops were put in.</summary>
    Drops = 4,

    /// <summary>Surgery or injury.</summary>
    SurgeryOrInjury = 8,

    /// <summary>The cornea is not clear.</summary>
    OpaqueCornea = 16,

    /// <summary>The lid hangs down.</summary>
    LidDown = 32,
}

/// <summary>The state of one eye before the test; a later entry for the same eye replaces it and keeps it.</summary>
public sealed record EyeStatusEntered : ExamEntry
{
    /// <summary>Which eye.</summary>
    public required Eye Eye { get; init; }

    /// <summary>What holds of it.</summary>
    public required EyeConditions Conditions { get; init; }
}

/// <summary>The room's light as far as pupils go.</summary>
public enum RoomLight
{
    /// <summary>Bright.</summary>
    Bright = 1,

    /// <summary>Dim.</summary>
    Dim = 2,
}

/// <summary>A person said what the room light is, where the instrument does not tell.</summary>
public sealed record RoomLightEntered : ExamEntry
{
    /// <summary>Bright or dim, from the time of this entry on.</summary>
    public required RoomLight Light { get; init; }
}

/// <summary>Where the patient looks.</summary>
public enum Fixation
{
    /// <summary>At something far away, as every test but the near response needs.</summary>
    Far = 1,

    /// <summary>At something near.</summary>
    Near = 2,
}

/// <summary>A person said where the patient looks, where the instrument does not tell.</summary>
public sealed record FixationEntered : ExamEntry
{
    /// <summary>Far or near, from the time of this entry on.</summary>
    public required Fixation Fixation { get; init; }
}
