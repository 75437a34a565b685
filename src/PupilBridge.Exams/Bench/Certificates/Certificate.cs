using System.Text.Json.Serialization;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>
/// A calibration certificate: all that was read, computed and decided, so that it can be checked from itself alone. It is made once, kept
/// as the exact text that was issued, and never changed. Lengths are in mm and times in ms unless a name says otherwise; moments are
/// ISO 8601 in UTC.
/// </summary>
public sealed record Certificate
{
    /// <summary>The newest form of this document.</summary>
    public const int NewestFormat = 1;

    /// <summary>The form of the document.</summary>
    public int Format { get; init; } = NewestFormat;

    /// <summary>Its number.</summary>
    public required long Number { get; init; }

    /// <summary>The clinic; empty if it did not say.</summary>
    public required string Clinic { get; init; }

    /// <summary>When it was issued.</summary>
    public required string Issued { get; init; }

    /// <summary>By whom.</summary>
    public required string IssuedBy { get; init; }

    /// <summary>From when on it holds.</summary>
    public required string Effective { get; init; }

    /// <summary>From when on it counts as expired; null where it does not.</summary>
    public required string? Expires { get; init; }

    /// <summary>The number of the certificate whose place it takes; null if there is none.</summary>
    public required long? Supersedes { get; init; }

    /// <summary>The instrument.</summary>
    public required CertifiedInstrument Instrument { get; init; }

    /// <summary>The discs.</summary>
    public required CertifiedDiscs Discs { get; init; }

    /// <summary>The run.</summary>
    public required CertifiedRun Run { get; init; }

    /// <summary>The rule agreed beforehand.</summary>
    public required CertifiedRule Rule { get; init; }

    /// <summary>The two scales.</summary>
    public required PerEye<CertifiedScale> Scales { get; init; }

    /// <summary>The timing of stimuli; null if none was measured.</summary>
    public required CertifiedTiming? Timing { get; init; }

    /// <summary>The lamps; null if they were never measured.</summary>
    public required CertifiedLamps? Lamps { get; init; }

    /// <summary>The repeatability on living people that is in use; null if none was found.</summary>
    public required CertifiedRepeatability? Repeatability { get; init; }

    /// <summary>The version of the program that computed it.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Whether it was only shown and never issued; an issued text has no such member.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public bool IsDraft { get; init; }

    /// <summary>The end of the journal when it was made, as <c>sequence:hash</c>; empty where it was not known.</summary>
    public required string JournalHead { get; init; }
}

/// <summary>The instrument as it told of itself.</summary>
/// <param name="Serial">Its serial number.</param>
/// <param name="Model">Its model.</param>
/// <param name="Firmware">The version of its program.</param>
/// <param name="ResolutionMicrometres">The step of each scale, in µm.</param>
public sealed record CertifiedInstrument(
    string Serial,
    string Model,
    string Firmware,
    PerEye<int> ResolutionMicrometres
);

/// <summary>The discs.</summary>
/// <param name="Name">The set.</param>
/// <param name="CertificateNumber">Its own certificate.</param>
/// <param name="CertifiedBy">Who certified it.</param>
/// <param name="Certified">The day of that.</param>
/// <param name="Expires">Its last day; null if it has none.</param>
/// <param name="CommonUncertainty">The standard uncertainty that all share, in mm.</param>
/// <param name="Items">The discs.</param>
public sealed record CertifiedDiscs(
    string Name,
    string CertificateNumber,
    string CertifiedBy,
    string Certified,
    string? Expires,
    double CommonUncertainty,
    ValueList<CertifiedDisc> Items
);

/// <summary>One disc.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Diameter">Its diameter, in mm.</param>
/// <param name="StandardUncertainty">Its own standard uncertainty, in mm.</param>
public sealed record CertifiedDisc(string Name, double Diameter, double StandardUncertainty);

/// <summary>The run.</summary>
/// <param name="Number">Its number: the journal's entry that began it.</param>
/// <param name="Technician">Who measured.</param>
/// <param name="Begun">When it began.</param>
/// <param name="Ended">When it was finished.</param>
/// <param name="Seed">The number from which the order of readings was drawn, in hexadecimal digits.</param>
/// <param name="TemperatureCelsius">The room's temperature, in °C; null if it was not read.</param>
/// <param name="Conditions">Other conditions.</param>
/// <param name="Straightness">The standard uncertainty stated beforehand for the scales' straightness, in mm.</param>
public sealed record CertifiedRun(
    long Number,
    string Technician,
    string Begun,
    string Ended,
    string Seed,
    double? TemperatureCelsius,
    string Conditions,
    double Straightness
);

/// <summary>The decision rule.</summary>
/// <param name="Kind"><c>simple-acceptance</c> or <c>guard-band</c> (ILAC-G8:09/2019, 4.2).</param>
/// <param name="Limit">The maximum permissible error to either side, in mm.</param>
/// <param name="GuardBandFactor">The guard band as a multiple of U for 95 %.</param>
public sealed record CertifiedRule(string Kind, double Limit, double GuardBandFactor);

/// <summary>The timing of stimuli.</summary>
/// <param name="Source">From which run or exams it comes, for people.</param>
/// <param name="Eyes">One line for each block and eye.</param>
/// <param name="Asymmetries">How much longer the right eye was lit, by block.</param>
public sealed record CertifiedTiming(
    string Source,
    ValueList<CertifiedEyeTiming> Eyes,
    ValueList<CertifiedAsymmetry> Asymmetries
);

/// <summary>One eye's stimuli of one block, in ms.</summary>
/// <param name="Block">The block.</param>
/// <param name="Eye">The eye.</param>
/// <param name="Count">How many stimuli.</param>
/// <param name="Mean">The mean dwell.</param>
/// <param name="Jitter">The standard deviation of single dwells; null for one.</param>
/// <param name="Shortest">The shortest.</param>
/// <param name="Longest">The longest.</param>
/// <param name="Least">The shortest that the profile allows.</param>
/// <param name="Most">The longest that it allows.</param>
/// <param name="Verdict">How the worst one stands to that: <c>within</c>, <c>too-short</c>, <c>too-long</c>, <c>cannot-tell</c>.</param>
/// <param name="GapMean">The mean dark time before it; null if there was none that is asked for.</param>
/// <param name="GapVerdict">How the worst one stands to the profile.</param>
public sealed record CertifiedEyeTiming(
    string Block,
    string Eye,
    int Count,
    double Mean,
    double? Jitter,
    long Shortest,
    long Longest,
    double? Least,
    double? Most,
    string Verdict,
    double? GapMean,
    string GapVerdict
);

/// <summary>How much longer the right eye was lit than the left, in ms.</summary>
/// <param name="Block">The block.</param>
/// <param name="Milliseconds">The difference of the means.</param>
/// <param name="Expanded">Its expanded uncertainty, factor 2.</param>
public sealed record CertifiedAsymmetry(string Block, double Milliseconds, double Expanded);

/// <summary>The lamps.</summary>
/// <param name="Measured">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Source"><c>typed</c> or <c>instrument</c>.</param>
/// <param name="LogUnits">log10(right / left).</param>
/// <param name="Expanded">Its expanded uncertainty for 95 %, in log units.</param>
public sealed record CertifiedLamps(string Measured, string By, string Source, double LogUnits, double Expanded);

/// <summary>The repeatability on living people.</summary>
/// <param name="Run">The run that found it.</param>
/// <param name="StandardDeviation">The standard deviation of settings of one pupil, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom.</param>
public sealed record CertifiedRepeatability(long Run, double StandardDeviation, int DegreesOfFreedom);
