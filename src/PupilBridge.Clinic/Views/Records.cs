using PupilBridge.Exams.Criteria;

namespace PupilBridge.Clinic.Views;

/// <summary>Which exams to find. Everything given must hold.</summary>
public sealed record ExamSearch
{
    /// <summary>The patient's number; null for all.</summary>
    public string? Patient { get; init; }

    /// <summary>The examiner's sign-in name; capitals do not matter; null for all.</summary>
    public string? Examiner { get; init; }

    /// <summary>The status in a word; null for all.</summary>
    public string? Status { get; init; }

    /// <summary>A finding in a word, one of <see cref="FindingWords"/>; null for all.</summary>
    public string? Finding { get; init; }

    /// <summary>Only exams opened at this time or later; null for no limit.</summary>
    public DateTimeOffset? OpenedFrom { get; init; }

    /// <summary>Only exams opened before this time; null for no limit.</summary>
    public DateTimeOffset? OpenedBefore { get; init; }

    /// <summary>Where the page before ended, as <see cref="ExamPage.Next"/> said; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most exams to list, 1 to 500.</summary>
    public int Limit { get; init; } = 50;

    /// <summary>The findings that can be searched for: short words, and criteria that are met, by their ids.</summary>
    public static IReadOnlyList<string> FindingWords { get; } =
    [
        "anisocoria",
        "not-round",
        "poor-direct",
        "swing-asymmetry",
        "incomplete",
        "gap",
        "before-drops",
        .. CriteriaCatalogue.All.Select(criterion => criterion.Id),
    ];
}

/// <summary>A page of exams.</summary>
/// <param name="Exams">The exams; may be fewer than asked for though more follow.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record ExamPage(IReadOnlyList<FoundExam> Exams, string? Next);

/// <summary>One exam in a list.</summary>
public sealed record FoundExam
{
    /// <summary>What every list shows of it.</summary>
    public required ExamSummary Summary { get; init; }

    /// <summary>The patient's name, if the clinic keeps one and it has not been erased.</summary>
    public required string? PatientName { get; init; }

    /// <summary>Its findings in words of <see cref="ExamSearch.FindingWords"/>.</summary>
    public required IReadOnlyList<string> Findings { get; init; }

    /// <summary>Why a clinician should see the patient before drops, in words; empty for no reason.</summary>
    public required IReadOnlyList<string> BeforeDrops { get; init; }

    /// <summary>Whether it is over for the instrument though nobody made it ready.</summary>
    public required bool IsLeftOpen { get; init; }
}

/// <summary>One exam as a clinician reviews it.</summary>
public sealed record RecordView
{
    /// <summary>The exam whole.</summary>
    public required ExamView Exam { get; init; }

    /// <summary>The patient; null while it is attached to nobody.</summary>
    public required PatientView? Patient { get; init; }

    /// <summary>How the calibration stood when the exam opened; it corrects the exam's sizes for good.</summary>
    public required CalibrationView Calibration { get; init; }

    /// <summary>What each grade means here, by the legend in force at the exam, 0 to 4.</summary>
    public required LegendView Legend { get; init; }

    /// <summary>The runs of the blocks, with counts and how their timing stands.</summary>
    public required IReadOnlyList<BlockRunView> Runs { get; init; }

    /// <summary>The outcome of swinging in words, with dwells that disagree kept apart.</summary>
    public required string SwingWords { get; init; }

    /// <summary>Why a clinician should see the patient before drops, in words; empty for no reason.</summary>
    public required IReadOnlyList<string> BeforeDrops { get; init; }

    /// <summary>The signed versions, the first one first; empty while it is not signed.</summary>
    public required IReadOnlyList<SignedVersionView> SignedVersions { get; init; }

    /// <summary>Whether an amendment was begun and not signed yet.</summary>
    public required bool IsBeingAmended { get; init; }

    /// <summary>
    /// The digest of the record as it would be signed now: 64 hexadecimal digits. A signature names it, so that nobody signs what they
    /// did not see. Null where it cannot be signed now.
    /// </summary>
    public required string? DraftDigest { get; init; }

    /// <summary>Why it cannot be signed now, and what to do; null where it can.</summary>
    public required string? CannotSign { get; init; }

    /// <summary>What people did to the exam as a whole, in words, in order.</summary>
    public required IReadOnlyList<CourseView> Course { get; init; }
}

/// <summary>What each grade means, by the clinic's own words.</summary>
/// <param name="Version">The legend's version.</param>
/// <param name="Grades">The words for 0, 1, 2, 3 and 4.</param>
public sealed record LegendView(string Version, IReadOnlyList<string> Grades);

/// <summary>One run of a block.</summary>
/// <param name="Block">The block in a word.</param>
/// <param name="Run">Which run of it, from 1.</param>
/// <param name="Stimuli">How many stimuli it had.</param>
/// <param name="Wanted">How many the profile wants.</param>
/// <param name="HasReachedCount">Whether it had enough.</param>
/// <param name="Timing">How its dwells and gaps stand to the profile, in words.</param>
public sealed record BlockRunView(string Block, int Run, int Stimuli, int Wanted, bool HasReachedCount, string Timing);

/// <summary>A signed version of an exam's record.</summary>
/// <param name="Version">From 1.</param>
/// <param name="Who">Who signed.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Reason">Why it was amended; null for the first version.</param>
/// <param name="Sequence">Its place in the journal.</param>
/// <param name="Digest">The SHA-256 of the record: 64 hexadecimal digits.</param>
/// <param name="Record">The record, exactly as signed.</param>
/// <param name="ChartLine">The chart text in one line, out of the record.</param>
/// <param name="ChartBlock">The chart text over several lines, out of the record.</param>
public sealed record SignedVersionView(
    int Version,
    string Who,
    DateTimeOffset At,
    string? Reason,
    long Sequence,
    string Digest,
    string Record,
    string ChartLine,
    string ChartBlock
);

/// <summary>What a person did to an exam as a whole.</summary>
/// <param name="Words">What, in words.</param>
/// <param name="Who">Who.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Reason">Why; null if nothing was said.</param>
public sealed record CourseView(string Words, string Who, DateTimeOffset At, string? Reason);

/// <summary>One entry of the journal as it stands there.</summary>
/// <param name="Sequence">Its place.</param>
/// <param name="Kind">Its kind, in a word.</param>
/// <param name="At">When it happened or was entered, in UTC.</param>
/// <param name="Words">What it says, in words.</param>
/// <param name="RawLine">The instrument's own line, word for word; null for other entries.</param>
/// <param name="Fields">Its fields by name, in order.</param>
public sealed record RawReadingView(
    long Sequence,
    string Kind,
    DateTimeOffset At,
    string Words,
    string? RawLine,
    IReadOnlyList<KeyValuePair<string, string>> Fields
);

/// <summary>A patient's visits, the latest first: those of all numbers that stand for the person.</summary>
/// <param name="Patient">The patient.</param>
/// <param name="Visits">One for each exam that was not set aside, with the number it was attached to.</param>
public sealed record PatientHistory(PatientView Patient, IReadOnlyList<VisitView> Visits)
{
    /// <summary>The mergings by which other numbers stand for the same person; empty where there are none.</summary>
    public IReadOnlyList<MergingView> Mergings { get; init; } = [];
}

/// <summary>One visit.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="Sizes">The sizes that count.</param>
/// <param name="Grades">Judgements that count, in short words.</param>
public sealed record VisitView(ExamSummary Exam, IReadOnlyList<SizeView> Sizes, IReadOnlyList<string> Grades)
{
    /// <summary>The differences of both eyes' sizes, where both were measured.</summary>
    public IReadOnlyList<SizeDifferenceView> Differences { get; init; } = [];

    /// <summary>What criteria say otherwise than at the visit before; empty for the first visit.</summary>
    public IReadOnlyList<CriterionChange> Changes { get; init; } = [];
}

/// <summary>The difference of both eyes' sizes under one light.</summary>
/// <param name="Light"><c>bright</c> or <c>dim</c>.</param>
/// <param name="Millimetres">Right minus left, in mm.</param>
/// <param name="UncertaintyMillimetres">Its expanded uncertainty in mm, for about 95 %; null where it is not known.</param>
public sealed record SizeDifferenceView(string Light, double Millimetres, double? UncertaintyMillimetres);

/// <summary>A criterion that says something else than at the visit before.</summary>
/// <param name="Criterion">The criterion's id.</param>
/// <param name="Eye"><c>OD</c> or <c>OS</c>; null where it is about both, or names none.</param>
/// <param name="Light">The light; null for none.</param>
/// <param name="Block">The block; null for none.</param>
/// <param name="From">What it said at the visit before: <c>met</c>, <c>not-met</c>, <c>cannot-tell</c> or <c>not-examined</c>.</param>
/// <param name="To">What it says at this one.</param>
/// <param name="Sentence">What it says at this one, in words.</param>
public sealed record CriterionChange(
    string Criterion,
    string? Eye,
    string? Light,
    string? Block,
    string From,
    string To,
    string Sentence
);

/// <summary>The list of one day.</summary>
/// <param name="Day">The day.</param>
/// <param name="Items">The patients in the list's order.</param>
public sealed record DayListView(DateOnly Day, IReadOnlyList<DayListItemView> Items);

/// <summary>One patient on a day's list.</summary>
/// <param name="Patient">The patient.</param>
/// <param name="Time">When they are expected, such as <c>09:30</c>; null if it was not said.</param>
/// <param name="Exam">Their exam of that day; null if there is none yet.</param>
public sealed record DayListItemView(PatientView Patient, string? Time, ExamSummary? Exam);

/// <summary>What became of the import of a day's list.</summary>
/// <param name="Done">Whether it was taken.</param>
/// <param name="Day">The day.</param>
/// <param name="Patients">How many patients it holds.</param>
/// <param name="Fresh">How many of them were not known before.</param>
/// <param name="Words">What happened, for a person.</param>
/// <param name="Faults">What is wrong, line by line, each with what to do; empty if it was taken.</param>
public sealed record DayListImport(
    bool Done,
    DateOnly Day,
    int Patients,
    int Fresh,
    string Words,
    IReadOnlyList<string> Faults
);
