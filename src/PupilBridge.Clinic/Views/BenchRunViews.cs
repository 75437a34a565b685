using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Views;

/// <summary>One run.</summary>
public sealed record BenchRunView
{
    /// <summary>The run in one line.</summary>
    public required BenchRunLine Line { get; init; }

    /// <summary>The state of the instrument's line in a word.</summary>
    public required string InstrumentLine { get; init; }

    /// <summary>Another instrument that is connected and marks edges while this one is not there; null if there is none.</summary>
    public required string? OtherInstrument { get; init; }

    /// <summary>The set of discs; null where none is needed.</summary>
    public required DiscSetView? DiscSet { get; init; }

    /// <summary>The rule agreed beforehand, in words; null where nothing is decided.</summary>
    public required string? Rule { get; init; }

    /// <summary>The conditions, in words; empty if none were given.</summary>
    public required string Conditions { get; init; }

    /// <summary>The number from which the order was drawn, in hexadecimal digits.</summary>
    public required string Seed { get; init; }

    /// <summary>What is asked for now; null when nothing is.</summary>
    public required BenchStepView? Asked { get; init; }

    /// <summary>How many readings count.</summary>
    public required int Done { get; init; }

    /// <summary>How many are still to come.</summary>
    public required int ToCome { get; init; }

    /// <summary>What is to come after the one asked for now, as far as a person looks ahead.</summary>
    public required IReadOnlyList<BenchStepView> Next { get; init; }

    /// <summary>All readings.</summary>
    public required IReadOnlyList<BenchReadingView> Readings { get; init; }

    /// <summary>Positions that became no reading, each in words with its reason.</summary>
    public required IReadOnlyList<string> Refused { get; init; }

    /// <summary>What a calibration or quick check says of each scale; null for other runs.</summary>
    public required PerEye<ScaleView>? Scales { get; init; }

    /// <summary>What a timing run asks of the dial; empty for other runs.</summary>
    public required IReadOnlyList<BenchBlockView> Blocks { get; init; }

    /// <summary>The timing of stimuli, one line for each block and eye; empty where no lamp was on.</summary>
    public required IReadOnlyList<TimingLine> Timing { get; init; }

    /// <summary>What a study on a person says; null for other runs.</summary>
    public required LiveStudyView? Live { get; init; }

    /// <summary>
    /// The lamp balance by the instrument's own meter, in words; null where it told nothing of its lamps. An entry can take it over
    /// (<see cref="Entries.LampBalanceEntry.FromRun"/>).
    /// </summary>
    public string? LampOutput { get; init; }

    /// <summary>Why it ended, where it was given up or broken off; null otherwise.</summary>
    public required string? Why { get; init; }

    /// <summary>What went wrong, or should be known, in words.</summary>
    public required IReadOnlyList<string> Incidents { get; init; }
}

/// <summary>One reading that is asked for.</summary>
/// <param name="Eye"><c>OD</c> or <c>OS</c>: by which scale.</param>
/// <param name="Disc">Of which disc; null for a living pupil.</param>
/// <param name="DiameterMillimetres">The disc's diameter, in mm; null for a living pupil.</param>
/// <param name="Light">In which room light; null where it does not matter.</param>
public sealed record BenchStepView(string Eye, string? Disc, double? DiameterMillimetres, string? Light);

/// <summary>One block that a timing run asks for.</summary>
/// <param name="Block">The block.</param>
/// <param name="DwellMilliseconds">How long the profile lights an eye, in ms.</param>
/// <param name="WantedPerEye">How many stimuli of each eye the profile has.</param>
/// <param name="Done">How many of each eye came.</param>
public sealed record BenchBlockView(string Block, int DwellMilliseconds, int WantedPerEye, PerEye<int> Done);

/// <summary>One reading.</summary>
/// <param name="Reading">The journal's entry that completed it.</param>
/// <param name="At">When.</param>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Disc">What was asked for; null for a living pupil, or when nothing was.</param>
/// <param name="NasalMicrometres">The nasal position, in µm.</param>
/// <param name="TemporalMicrometres">The temporal position, in µm.</param>
/// <param name="IndicatedMillimetres">Their difference, in mm.</param>
/// <param name="State"><c>counts</c>, <c>set-aside</c>, <c>other-scale</c>, <c>other-light</c> or <c>not-asked</c>.</param>
/// <param name="FarOff">
/// Whether it lies so far from the other readings of its disc and scale that a person should look at it. It counts all the same until a
/// person sets it aside.
/// </param>
/// <param name="Reason">What a person said when setting it aside or taking that back; null if nobody did.</param>
/// <param name="Who">Who said so; null if nobody did.</param>
public sealed record BenchReadingView(
    long Reading,
    DateTimeOffset At,
    string Eye,
    string? Disc,
    int NasalMicrometres,
    int TemporalMicrometres,
    double IndicatedMillimetres,
    string State,
    bool FarOff,
    string? Reason,
    string? Who
);

/// <summary>What a run says of one scale.</summary>
/// <param name="Statement"><c>pass</c>, <c>conditional-pass</c>, <c>conditional-fail</c> or <c>fail</c>; null where nothing can be said yet.</param>
/// <param name="Words">The same for a person: error and uncertainty, or why nothing can be said yet.</param>
/// <param name="Discs">What is said of each disc.</param>
/// <param name="Line">The correction line in words; null without a fit.</param>
/// <param name="Budget">The budget, one line for each contribution; empty without a fit.</param>
public sealed record ScaleView(
    string? Statement,
    string Words,
    IReadOnlyList<ScaleDiscView> Discs,
    string? Line,
    IReadOnlyList<BudgetLine> Budget
);

/// <summary>What is said of one disc, in mm.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="DiameterMillimetres">Its certified diameter.</param>
/// <param name="Readings">How many readings.</param>
/// <param name="IndicatedMillimetres">Their mean.</param>
/// <param name="ErrorMillimetres">Indicated minus certified.</param>
/// <param name="ExpandedMillimetres">Its expanded uncertainty for 95 %.</param>
/// <param name="Statement">What the rule says.</param>
public sealed record ScaleDiscView(
    string Disc,
    double DiameterMillimetres,
    int Readings,
    double IndicatedMillimetres,
    double ErrorMillimetres,
    double ExpandedMillimetres,
    string Statement
);

/// <summary>One line of a budget.</summary>
/// <param name="Kind">What it is, in a word.</param>
/// <param name="Type"><c>A</c> or <c>B</c>.</param>
/// <param name="StandardUncertaintyMillimetres">Its standard uncertainty, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom; null where infinite.</param>
public sealed record BudgetLine(
    string Kind,
    string Type,
    double StandardUncertaintyMillimetres,
    double? DegreesOfFreedom
)
{
    /// <summary>Of which diameter budgets are shown, in mm: that in the middle of the range of pupils.</summary>
    public const double AtMillimetres = BenchRunSummary.MiddleMillimetres;
}

/// <summary>One block's stimuli of one eye, in ms.</summary>
/// <param name="Block">The block.</param>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Count">How many.</param>
/// <param name="MeanMilliseconds">The mean dwell.</param>
/// <param name="JitterMilliseconds">The standard deviation; null for one.</param>
/// <param name="ShortestMilliseconds">The shortest.</param>
/// <param name="LongestMilliseconds">The longest.</param>
/// <param name="Verdict">How the worst one stands to the profile, in a word.</param>
/// <param name="GapMilliseconds">The mean dark time before it; null if none is asked for.</param>
/// <param name="GapVerdict">How the worst one stands, in a word.</param>
public sealed record TimingLine(
    string Block,
    string Eye,
    int Count,
    double MeanMilliseconds,
    double? JitterMilliseconds,
    long ShortestMilliseconds,
    long LongestMilliseconds,
    string Verdict,
    double? GapMilliseconds,
    string GapVerdict
);

/// <summary>What a study on a person says.</summary>
/// <param name="WithinMillimetres">The standard deviation of settings, in mm; null where there is none yet.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom behind it.</param>
/// <param name="CoefficientMillimetres">The coefficient of repeatability, in mm.</param>
/// <param name="Words">The same for a person, or why there is none yet.</param>
/// <param name="IsAdopted">Whether it counts for this instrument's exams.</param>
public sealed record LiveStudyView(
    double? WithinMillimetres,
    int DegreesOfFreedom,
    double? CoefficientMillimetres,
    string Words,
    bool IsAdopted
);

/// <summary>A certificate that is not issued.</summary>
/// <param name="Text">The certificate as it would be; null where there can be none.</param>
/// <param name="Digest">By which an <see cref="Entries.IssueEntry"/> says what its person saw; null where there can be none.</param>
/// <param name="Obstacle">Why there can be none; null where there can.</param>
public sealed record CertificateDraft(string? Text, string? Digest, string? Obstacle);

/// <summary>A certificate that was issued.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Instrument">The instrument.</param>
/// <param name="Run">The run behind it.</param>
/// <param name="Text">The certificate, exactly as it was issued.</param>
/// <param name="Standing">How it stands now: in force, superseded by which, or not effective yet, in words.</param>
/// <param name="SupersededBy">The number of the one that took its place; null if none did.</param>
public sealed record CertificateView(
    long Number,
    string Instrument,
    long Run,
    string Text,
    string Standing,
    long? SupersededBy
);

/// <summary>A certificate in one line.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Run">The run behind it.</param>
/// <param name="Effective">From when on it holds.</param>
/// <param name="Expires">From when on it counts as expired; null where it does not.</param>
/// <param name="Standing">How it stands now, in words.</param>
/// <param name="SupersededBy">The number of the one that took its place; null if none did.</param>
public sealed record CertificateLine(
    long Number,
    long Run,
    DateTimeOffset Effective,
    DateTimeOffset? Expires,
    string Standing,
    long? SupersededBy
);
