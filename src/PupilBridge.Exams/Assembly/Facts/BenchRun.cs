using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>
/// What makes a sitting a bench run: discs, or a colleague, are measured in place of a patient. Captures and stimuli are those of the
/// sitting, taken as in any exam.
/// </summary>
public sealed record BenchRun
{
    /// <summary>What for.</summary>
    public required BenchRunKind Kind { get; init; }

    /// <summary>Who does it.</summary>
    public required PersonId Technician { get; init; }

    /// <summary>The discs; null where none are needed.</summary>
    public required DiscSet? DiscSet { get; init; }

    /// <summary>What is to be measured, in this order.</summary>
    public required ValueList<BenchStep> Plan { get; init; }

    /// <summary>The number from which the order was drawn.</summary>
    public required ulong Seed { get; init; }

    /// <summary>The rule agreed beforehand; null where nothing is decided.</summary>
    public required DecisionRule? Rule { get; init; }

    /// <summary>How far the scale may lie off a straight line by its construction, as a standard uncertainty in mm.</summary>
    public required double StraightnessMillimetres { get; init; }

    /// <summary>The room's temperature, in °C; null if it was not read.</summary>
    public required double? TemperatureCelsius { get; init; }

    /// <summary>Other conditions, for people; may be empty.</summary>
    public required string Conditions { get; init; }

    /// <summary>What people said of single readings, in order; the last word on a reading counts.</summary>
    public ValueList<ReadingMark> Marks { get; init; }

    /// <summary>How a person ended it; null while it goes on, or if it ended otherwise.</summary>
    public RunEnding? Ending { get; init; }

    /// <summary>The number of the certificate that was issued for it; null if none was.</summary>
    public long? Certificate { get; init; }

    /// <summary>Whether its repeatability was adopted.</summary>
    public bool IsAdopted { get; init; }
}

/// <summary>What a person said of a reading.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Its place.</param>
/// <param name="Who">Who.</param>
/// <param name="At">When.</param>
/// <param name="Reading">The entry that completed the reading.</param>
/// <param name="IsSetAside">Whether it is set aside; otherwise it counts again.</param>
/// <param name="Reason">Why.</param>
public sealed record ReadingMark(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    JournalSequence Reading,
    bool IsSetAside,
    string Reason
);

/// <summary>How a person ended a run.</summary>
/// <param name="Sequence">By which entry.</param>
/// <param name="Who">Who.</param>
/// <param name="At">When.</param>
/// <param name="IsFinished">Whether it was finished; otherwise it was given up.</param>
/// <param name="Reason">Why it was given up.</param>
public sealed record RunEnding(JournalSequence Sequence, PersonId Who, UtcTime At, bool IsFinished, string Reason);
