using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Profiles;

/// <summary>
/// The clinic's way of examining, as data: the order of steps, the stimuli with their tolerances, and the limits that the
/// assembly of exams and the chart use. The journal holds the whole profile that was in force, so that an exam always
/// means the same.
/// </summary>
public sealed record Profile
{
    /// <summary>The profile's name, for people.</summary>
    public required string Name { get; init; }

    /// <summary>Its version, 1 or more; every change makes a new one.</summary>
    public required int Version { get; init; }

    /// <summary>The steps in the order in which they are asked for.</summary>
    public required ValueList<ExamStep> Steps { get; init; }

    /// <summary>The stimuli of the direct response.</summary>
    public required DirectTrain Direct { get; init; }

    /// <summary>The swinging-flashlight test with the short dwell.</summary>
    public required SwingTrain SwingShort { get; init; }

    /// <summary>The swinging-flashlight test with the long dwell.</summary>
    public required SwingTrain SwingLong { get; init; }

    /// <summary>How far a dwell may be off, in percent of the dwell, 0 to 100.</summary>
    public required int DwellTolerancePercent { get; init; }

    /// <summary>What makes two positions a diameter.</summary>
    public required CaptureRules Captures { get; init; }

    /// <summary>What counts as bright, dim and settled.</summary>
    public required LightRules Light { get; init; }

    /// <summary>What closes an exam.</summary>
    public required ClosingRules Closing { get; init; }

    /// <summary>What the chart text may claim.</summary>
    public required ChartRules Chart { get; init; }

    /// <summary>What each grade means here. A profile that says nothing of it has the program's own legend.</summary>
    public GradeLegend Legend { get; init; } = GradeLegend.Default;

    /// <summary>
    /// The profile that ships with the program. Its numbers are ours unless the member that holds them names a source;
    /// all of them are configuration.
    /// </summary>
    public static Profile Default { get; } =
        new()
        {
            Name = "default",
            Version = 1,
            Steps =
            [
                ExamStep.SizesBright,
                ExamStep.SizesDim,
                ExamStep.Shape,
                ExamStep.Direct,
                ExamStep.SwingShort,
                ExamStep.SwingLong,
            ],
            Direct = new()
            {
                StimuliPerEye = 3,
                DwellMilliseconds = 1000,
                GapMilliseconds = 3000,
            },
            SwingShort = new()
            {
                DwellMilliseconds = 1000,
                Alternations = 4,
                MaxGapMilliseconds = 500,
            },
            SwingLong = new()
            {
                DwellMilliseconds = 3000,
                Alternations = 4,
                MaxGapMilliseconds = 500,
            },
            DwellTolerancePercent = 5,
            Captures = CaptureRules.Default,
            Light = LightRules.Default,
            Closing = ClosingRules.Default,
            Chart = ChartRules.Default,
        };
}
