using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Views;

/// <summary>The service bench at one look.</summary>
/// <param name="Instruments">The instruments by serial number.</param>
/// <param name="DiscSets">The sets of discs by name.</param>
/// <param name="Usual">What a run begins with where nobody says otherwise.</param>
public sealed record BenchOverview(
    IReadOnlyList<BenchInstrument> Instruments,
    IReadOnlyList<DiscSetView> DiscSets,
    BenchUsual Usual
);

/// <summary>What the clinic set for its runs.</summary>
/// <param name="Rule">The decision rule that will hold, in words.</param>
/// <param name="CalibrationRepeats">How often each disc is read by each scale in a calibration.</param>
/// <param name="QuickCheckRepeats">How often the disc is read by each scale in a quick check.</param>
/// <param name="LiveRepeats">How often each eye is set in each light in a study on a person.</param>
/// <param name="CertificateMonths">How long a certificate holds, in months.</param>
/// <param name="MiddleMillimetres">The middle of the range of pupils, in mm.</param>
public sealed record BenchUsual(
    string Rule,
    int CalibrationRepeats,
    int QuickCheckRepeats,
    int LiveRepeats,
    int CertificateMonths,
    double MiddleMillimetres
)
{
    /// <summary>Nothing is known yet.</summary>
    public static BenchUsual Unknown { get; } = new("", 0, 0, 0, 0, 0);
}

/// <summary>One instrument on the bench.</summary>
public sealed record BenchInstrument
{
    /// <summary>Its serial number.</summary>
    public required string Instrument { get; init; }

    /// <summary>Its model; empty if it never told.</summary>
    public required string Model { get; init; }

    /// <summary>The state of its line in a word.</summary>
    public required string Line { get; init; }

    /// <summary>How its calibration stands now.</summary>
    public required CalibrationView Calibration { get; init; }

    /// <summary>Its lamps; null if they were never measured.</summary>
    public required LampView? Lamps { get; init; }

    /// <summary>The standard deviation of settings on living people that counts for its exams, in mm; null where the profile's does.</summary>
    public required double? LiveRepeatabilityMillimetres { get; init; }

    /// <summary>The run that takes its readings now; null if there is none.</summary>
    public required long? OpenRun { get; init; }

    /// <summary>What that run is for, in a word; null if there is none.</summary>
    public required string? OpenRunKind { get; init; }

    /// <summary>The exam that is open on it now; a run would end it. Null if there is none.</summary>
    public required long? OpenExam { get; init; }
}

/// <summary>How a calibration stands.</summary>
/// <param name="Standing"><c>holds</c>, <c>missing</c>, <c>expired</c> or <c>failed</c>.</param>
/// <param name="Number">Its certificate; null if there is none.</param>
/// <param name="Effective">From when on it holds.</param>
/// <param name="Expires">From when on it counts as expired; null where it does not.</param>
/// <param name="Words">The same for a person, and what to do.</param>
public sealed record CalibrationView(
    string Standing,
    long? Number,
    DateTimeOffset? Effective,
    DateTimeOffset? Expires,
    string Words
);

/// <summary>The lamps.</summary>
/// <param name="MeasuredAt">When they were measured.</param>
/// <param name="AgeDays">How many days ago.</param>
/// <param name="LogUnits">log10(right / left).</param>
/// <param name="ExpandedLogUnits">Its expanded uncertainty for 95 %.</param>
/// <param name="IsOverdue">Whether a new check is overdue.</param>
public sealed record LampView(
    DateTimeOffset MeasuredAt,
    int AgeDays,
    double LogUnits,
    double ExpandedLogUnits,
    bool IsOverdue
);

/// <summary>A set of discs.</summary>
/// <param name="Name">Its name.</param>
/// <param name="CertificateNumber">Its certificate.</param>
/// <param name="CertifiedBy">Who certified it.</param>
/// <param name="Certified">The day of that.</param>
/// <param name="Expires">Its last day; null if it has none.</param>
/// <param name="IsExpired">Whether it may not be used today.</param>
/// <param name="CommonUncertaintyMillimetres">The standard uncertainty that all share, in mm.</param>
/// <param name="Discs">The discs.</param>
public sealed record DiscSetView(
    string Name,
    string CertificateNumber,
    string CertifiedBy,
    DateOnly Certified,
    DateOnly? Expires,
    bool IsExpired,
    double CommonUncertaintyMillimetres,
    IReadOnlyList<DiscView> Discs
);

/// <summary>A disc.</summary>
/// <param name="Name">Its name.</param>
/// <param name="DiameterMillimetres">Its diameter, in mm.</param>
/// <param name="StandardUncertaintyMillimetres">Its own standard uncertainty, in mm.</param>
public sealed record DiscView(string Name, double DiameterMillimetres, double StandardUncertaintyMillimetres);

/// <summary>A run in one line.</summary>
/// <param name="Run">Its number.</param>
/// <param name="Instrument">The instrument.</param>
/// <param name="Kind">What for, in a word.</param>
/// <param name="BegunAt">When it began.</param>
/// <param name="Technician">By whom.</param>
/// <param name="State"><c>open</c>, <c>finished</c>, <c>given-up</c> or <c>broken-off</c>.</param>
/// <param name="Certificate">Its certificate; null if it has none.</param>
/// <param name="OffsetMillimetres">The error of each scale at the middle of the range, or at the disc of a quick check, in mm.</param>
public sealed record BenchRunLine(
    long Run,
    string Instrument,
    string Kind,
    DateTimeOffset BegunAt,
    string Technician,
    string State,
    long? Certificate,
    PerEye<double?> OffsetMillimetres
);
