using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Views;

/// <summary>How an instrument went over time.</summary>
/// <param name="Instrument">The instrument.</param>
/// <param name="LimitMillimetres">The maximum permissible error, in mm.</param>
/// <param name="Offsets">The error of each scale at the middle of the range or at a quick check's disc.</param>
/// <param name="Slopes">The slope of each scale's error.</param>
/// <param name="Homes">Where each scale came to rest at home in exams, off its declared home.</param>
/// <param name="Timing">The timing of stimuli in ordinary exams.</param>
/// <param name="TimingFrom">From how many exams that is.</param>
public sealed record DriftView(
    string Instrument,
    double LimitMillimetres,
    PerEye<DriftSeries> Offsets,
    PerEye<DriftSeries> Slopes,
    PerEye<DriftSeries> Homes,
    IReadOnlyList<TimingLine> Timing,
    int TimingFrom
)
{
    /// <summary>The limit of a slope: the maximum permissible error over the range of pupils, in mm per mm.</summary>
    public required double SlopeLimit { get; init; }
}

/// <summary>One series.</summary>
/// <param name="Points">The points, the oldest first.</param>
/// <param name="Centre">The mean of the first points; null with too few.</param>
/// <param name="Upper">The upper control limit; null with too few points.</param>
/// <param name="Lower">The lower control limit; null with too few points.</param>
/// <param name="State">How the last point stands, in a word.</param>
/// <param name="Words">The same for a person, and what to do.</param>
public sealed record DriftSeries(
    IReadOnlyList<DriftPointView> Points,
    double? Centre,
    double? Upper,
    double? Lower,
    string State,
    string Words
);

/// <summary>One point.</summary>
/// <param name="Day">The day.</param>
/// <param name="Value">The value, in mm (a slope has none).</param>
/// <param name="Source">The run, or the exam, that it comes from.</param>
/// <param name="IsQuickCheck">Whether it comes from a quick check.</param>
public sealed record DriftPointView(DateOnly Day, double Value, long Source, bool IsQuickCheck);

/// <summary>Which exams to look at under another calibration.</summary>
public sealed record WhatIfRequest
{
    /// <summary>The certificate under which they would stand; null for no calibration at all.</summary>
    public required long? Certificate { get; init; }

    /// <summary>Only exams on this instrument; null for the certificate's own.</summary>
    public string? Instrument { get; init; }

    /// <summary>Only exams opened at this time or later; null for no limit.</summary>
    public DateTimeOffset? OpenedFrom { get; init; }

    /// <summary>Only exams opened before this time; null for no limit.</summary>
    public DateTimeOffset? OpenedBefore { get; init; }

    /// <summary>Where the page before ended; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most exams to look at, 1 to 500.</summary>
    public int Limit { get; init; } = 100;
}

/// <summary>A page of exams under another calibration.</summary>
/// <param name="Exams">The exams that have sizes.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record WhatIfPage(IReadOnlyList<WhatIfExam> Exams, string? Next);

/// <summary>One exam under another calibration.</summary>
/// <param name="Exam">Its number.</param>
/// <param name="OpenedAt">When it opened.</param>
/// <param name="Calibration">The certificate that it stands under; null for none.</param>
/// <param name="Sizes">Its sizes.</param>
public sealed record WhatIfExam(long Exam, DateTimeOffset OpenedAt, long? Calibration, IReadOnlyList<WhatIfSize> Sizes);

/// <summary>One size, in mm.</summary>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Light">Under which light.</param>
/// <param name="NowMillimetres">As it stands.</param>
/// <param name="NowExpandedMillimetres">Its expanded uncertainty.</param>
/// <param name="ThenMillimetres">As it would be.</param>
/// <param name="ThenExpandedMillimetres">Its expanded uncertainty.</param>
public sealed record WhatIfSize(
    string Eye,
    string Light,
    double NowMillimetres,
    double NowExpandedMillimetres,
    double ThenMillimetres,
    double ThenExpandedMillimetres
);
