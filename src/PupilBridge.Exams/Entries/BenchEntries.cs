using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>A set of reference discs was entered, or entered anew with a later certificate.</summary>
public sealed record DiscSetEntered : PersonEntry
{
    /// <summary>The set.</summary>
    public required DiscSet Set { get; init; }
}

/// <summary>A technician put an instrument on the bench; the run's name is this entry's place in the journal.</summary>
public sealed record BenchRunBegun : PersonEntry
{
    /// <summary>The instrument that is looked at.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>What for.</summary>
    public required BenchRunKind Kind { get; init; }

    /// <summary>The set of discs as it was entered, whole, so that the run means the same for good; null where none is needed.</summary>
    public required DiscSet? DiscSet { get; init; }

    /// <summary>What is to be measured, in this order.</summary>
    public required ValueList<BenchStep> Plan { get; init; }

    /// <summary>The number from which the order was drawn.</summary>
    public required ulong Seed { get; init; }

    /// <summary>The decision rule, agreed before anything is measured; null where nothing is decided.</summary>
    public required DecisionRule? Rule { get; init; }

    /// <summary>
    /// How far the scale's true correction may lie off a straight line by its construction, as a standard uncertainty in mm; 0 where
    /// nothing is known.
    /// </summary>
    public required double StraightnessMillimetres { get; init; }

    /// <summary>The temperature of the room, in °C; null if it was not read.</summary>
    public required double? TemperatureCelsius { get; init; }

    /// <summary>Other conditions, for people; may be empty.</summary>
    public required string Conditions { get; init; }
}

/// <summary>A person set a reading of a bench run aside, or took that back. No reading is ever set aside by rule.</summary>
public sealed record BenchReadingMarked : ExamEntry
{
    /// <summary>The entry that completed the reading.</summary>
    public required JournalSequence Reading { get; init; }

    /// <summary>Whether it is set aside; otherwise it counts again.</summary>
    public required bool IsSetAside { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }
}

/// <summary>A person ended a bench run.</summary>
public sealed record BenchRunEnded : ExamEntry
{
    /// <summary>Whether it was finished; otherwise it was given up.</summary>
    public required bool IsFinished { get; init; }

    /// <summary>Why it was given up; may be empty where it was finished.</summary>
    public required string Reason { get; init; }
}

/// <summary>
/// A calibration certificate was issued for an instrument. It stands for good: only another one takes its place, from that one's own
/// effective date on.
/// </summary>
public sealed record CalibrationIssued : ExamEntry
{
    /// <summary>The longest certificate that the journal takes, in bytes of UTF-8.</summary>
    public const int MaxCertificateBytes = ExamSigned.MaxRecordBytes;

    /// <summary>The certificate's number, from 1 in each data folder.</summary>
    public required long Number { get; init; }

    /// <summary>From when on it corrects diameters.</summary>
    public required UtcTime Effective { get; init; }

    /// <summary>From when on it counts as expired; null where it does not expire.</summary>
    public required UtcTime? Expires { get; init; }

    /// <summary>The two scales' corrections and what was decided of them.</summary>
    public required PerEye<CalibratedScale> Scales { get; init; }

    /// <summary>The certificate itself, the exact text that was issued.</summary>
    public required string Certificate { get; init; }
}

/// <summary>Where the readings of a lamp balance came from.</summary>
public enum LampReadingSource
{
    /// <summary>A person read a lux meter and typed them in.</summary>
    Typed = 1,

    /// <summary>The instrument measured its own lamps and reported them.</summary>
    Instrument = 2,
}

/// <summary>The outputs of the two lamps were measured.</summary>
public sealed record LampBalanceEntered : PersonEntry
{
    /// <summary>The instrument.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The readings before each lamp, in millilux, in the order in which they were taken.</summary>
    public required PerEye<ValueList<long>> Millilux { get; init; }

    /// <summary>The step of the meter's display, in millilux, 0 or more.</summary>
    public required long StepMillilux { get; init; }

    /// <summary>Where they came from.</summary>
    public required LampReadingSource Source { get; init; }

    /// <summary>Which meter, for people; may be empty.</summary>
    public required string Meter { get; init; }
}

/// <summary>
/// The repeatability that a bench run found on a living person counts from now on for exams on this instrument, in place of the profile's.
/// </summary>
public sealed record RepeatabilityAdopted : ExamEntry
{
    /// <summary>The standard deviation of settings of one pupil, in mm.</summary>
    public required double WithinMillimetres { get; init; }

    /// <summary>The degrees of freedom behind it.</summary>
    public required int DegreesOfFreedom { get; init; }
}
