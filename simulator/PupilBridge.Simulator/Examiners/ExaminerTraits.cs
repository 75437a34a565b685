using PupilBridge.Instrument;

namespace PupilBridge.Simulator.Examiners;

/// <summary>What kind of examiner it is. All figures are assumptions of ours.</summary>
public sealed record ExaminerTraits
{
    /// <summary>The initials.</summary>
    public required string Initials { get; init; }

    /// <summary>Standard deviation with which a scale is set to an edge, in millimetres.</summary>
    public double SettingScatterMillimetres { get; init; } = 0.08;

    /// <summary>Probability that a grade is said one too high or too low, 0 to 1.</summary>
    public double SlipProbability { get; init; }

    /// <summary>The eye that is measured first.</summary>
    public Eye FirstEye { get; init; } = Eye.Right;

    /// <summary>Whether one setting is done over, as after a cough.</summary>
    public bool RepeatsASetting { get; init; }

    /// <summary>Whether the short swinging block is done once more in hold before the sequence goes on.</summary>
    public bool RepeatsSwingShort { get; init; }

    /// <summary>How long the eyes are left in the dim room before they are measured there.</summary>
    public TimeSpan DarkWait { get; init; } = TimeSpan.FromSeconds(20);
}
