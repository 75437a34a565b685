using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Scenarios;

/// <summary>One person examined by one examiner, both simulated.</summary>
public sealed record Scenario
{
    /// <summary>The name by which it is asked for.</summary>
    public required string Name { get; init; }

    /// <summary>The person's number in the demo clinic, such as <c>Q-1001</c>.</summary>
    public required string PatientNumber { get; init; }

    /// <summary>What is true of the person's pupils.</summary>
    public required PatientTruth Patient { get; init; }

    /// <summary>The examiner.</summary>
    public required ExaminerTraits Examiner { get; init; }

    /// <summary>The seed of unrest and scatter.</summary>
    public required long Seed { get; init; }

    /// <summary>Illuminance of the bright room in lux.</summary>
    public double BrightLux { get; init; } = 300;

    /// <summary>Illuminance of the dim room in lux.</summary>
    public double DimLux { get; init; } = 2;
}
