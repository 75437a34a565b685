using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>One scale.</summary>
public sealed record CertifiedScale
{
    /// <summary>Every reading, those set aside included, in the order in which they were taken.</summary>
    public required ValueList<CertifiedReading> Readings { get; init; }

    /// <summary>The discs' means, by diameter, with what was decided of each.</summary>
    public required ValueList<CertifiedMean> Means { get; init; }

    /// <summary>The line.</summary>
    public required CertifiedLine Line { get; init; }

    /// <summary>Every contribution to the uncertainty of a corrected diameter at <see cref="CertifiedBudget.Indicated"/>.</summary>
    public required CertifiedBudget Budget { get; init; }

    /// <summary>The correction and its expanded uncertainty over the range, to draw.</summary>
    public required ValueList<CertifiedBandPoint> Band { get; init; }

    /// <summary>What the rule says of the scale: <c>pass</c>, <c>conditional-pass</c>, <c>conditional-fail</c>, <c>fail</c>.</summary>
    public required string Statement { get; init; }
}

/// <summary>One reading.</summary>
/// <param name="Entry">The journal's entry that completed it.</param>
/// <param name="At">When.</param>
/// <param name="Disc">Of which disc; empty where nothing was asked for.</param>
/// <param name="NasalMicrometres">The nasal position, in µm.</param>
/// <param name="TemporalMicrometres">The temporal position, in µm.</param>
/// <param name="Indicated">Their difference, in mm.</param>
/// <param name="State"><c>counts</c>, <c>set-aside</c>, <c>other-scale</c> or <c>not-asked</c>.</param>
/// <param name="Reason">Why a person set it aside; empty if nobody did.</param>
/// <param name="By">Who did; empty if nobody did.</param>
public sealed record CertifiedReading(
    long Entry,
    string At,
    string Disc,
    int NasalMicrometres,
    int TemporalMicrometres,
    double Indicated,
    string State,
    string Reason,
    string By
);

/// <summary>One disc's mean, in mm.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="Diameter">Its certified diameter.</param>
/// <param name="Count">How many readings.</param>
/// <param name="Indicated">Their mean.</param>
/// <param name="Deviation">Their standard deviation.</param>
/// <param name="Correction">Certified minus indicated.</param>
/// <param name="Residual">How far that lies above the line.</param>
/// <param name="Error">Indicated minus certified: the error before correction.</param>
/// <param name="Expanded">Its expanded uncertainty for 95 %.</param>
/// <param name="Statement">What the rule says of it.</param>
public sealed record CertifiedMean(
    string Disc,
    double Diameter,
    int Count,
    double Indicated,
    double Deviation,
    double Correction,
    double Residual,
    double Error,
    double Expanded,
    string Statement
);

/// <summary>The correction line y(d) = y1 + y2·(d − d0) (JCGM 100:2008, H.3), in mm.</summary>
/// <param name="D0">Where it is stated.</param>
/// <param name="Y1">The correction there.</param>
/// <param name="UncertaintyOfY1">Its standard uncertainty, all contributions of the line included.</param>
/// <param name="Y2">The slope.</param>
/// <param name="UncertaintyOfY2">Its standard uncertainty.</param>
/// <param name="Correlation">The correlation of the two.</param>
/// <param name="ResidualDeviation">The standard deviation of the readings about the line.</param>
/// <param name="Repeatability">The standard deviation of readings of one disc.</param>
/// <param name="RepeatabilityDegrees">Its degrees of freedom.</param>
/// <param name="LackOfFit">
/// The ratio F of what the means' residuals are to what the scatter of readings explains; null where readings of a disc do not scatter at all.
/// </param>
/// <param name="LackOfFitChance">The probability of a ratio as large with a straight scale.</param>
/// <param name="IsBent">Whether the scale counts as not straight.</param>
public sealed record CertifiedLine(
    double D0,
    double Y1,
    double UncertaintyOfY1,
    double Y2,
    double UncertaintyOfY2,
    double Correlation,
    double ResidualDeviation,
    double Repeatability,
    int RepeatabilityDegrees,
    double? LackOfFit,
    double LackOfFitChance,
    bool IsBent
);

/// <summary>A budget.</summary>
/// <param name="Indicated">Of which indicated diameter, in mm.</param>
/// <param name="Corrected">The corrected diameter, in mm.</param>
/// <param name="Lines">One line for each contribution.</param>
/// <param name="StandardUncertainty">The combined standard uncertainty, in mm.</param>
/// <param name="DegreesOfFreedom">The effective degrees of freedom; null where infinite.</param>
/// <param name="ExpandedForFactor2">U for k = 2, in mm.</param>
/// <param name="ExpandedFor95">U for 95 %, in mm.</param>
public sealed record CertifiedBudget(
    double Indicated,
    double Corrected,
    ValueList<CertifiedContribution> Lines,
    double StandardUncertainty,
    double? DegreesOfFreedom,
    double ExpandedForFactor2,
    double ExpandedFor95
);

/// <summary>One contribution.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Type"><c>A</c> or <c>B</c> (JCGM 100:2008, 0.7).</param>
/// <param name="StandardUncertainty">Its standard uncertainty, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom; null where infinite.</param>
public sealed record CertifiedContribution(
    string Kind,
    string Type,
    double StandardUncertainty,
    double? DegreesOfFreedom
);

/// <summary>The correction at one place.</summary>
/// <param name="Indicated">The indicated diameter, in mm.</param>
/// <param name="Correction">The correction, in mm.</param>
/// <param name="ExpandedFor95">Its expanded uncertainty for 95 %, in mm.</param>
public sealed record CertifiedBandPoint(double Indicated, double Correction, double ExpandedFor95);
