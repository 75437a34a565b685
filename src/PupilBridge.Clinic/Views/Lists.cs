using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.Views;

/// <summary>Which exams to list.</summary>
public sealed record ExamListRequest
{
    /// <summary>Only exams of this patient; null for all.</summary>
    public string? Patient { get; init; }

    /// <summary>Only exams with this status; null for all.</summary>
    public string? Status { get; init; }

    /// <summary>Only exams opened at this time or later; null for no limit.</summary>
    public DateTimeOffset? OpenedFrom { get; init; }

    /// <summary>Only exams opened before this time; null for no limit.</summary>
    public DateTimeOffset? OpenedBefore { get; init; }

    /// <summary>Where the page before ended, as it said in <see cref="ExamList.Next"/>; null for the first page.</summary>
    public string? After { get; init; }

    /// <summary>The most exams to list, 1 to 500.</summary>
    public int Limit { get; init; } = 50;
}

/// <summary>A page of exams, the latest opened first.</summary>
/// <param name="Exams">The exams.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record ExamList(IReadOnlyList<ExamSummary> Exams, string? Next);

/// <summary>One exam in a list.</summary>
public sealed record ExamSummary
{
    /// <summary>Its number.</summary>
    public required long Exam { get; init; }

    /// <summary>The patient's number; null while it is attached to nobody.</summary>
    public required string? Patient { get; init; }

    /// <summary>When it opened, in UTC.</summary>
    public required DateTimeOffset OpenedAt { get; init; }

    /// <summary>Its status in a word.</summary>
    public required string Status { get; init; }

    /// <summary>The serial number of the instrument.</summary>
    public required string Instrument { get; init; }

    /// <summary>Who opened it; null if it opened by itself.</summary>
    public required string? Examiner { get; init; }

    /// <summary>The chart text in one line.</summary>
    public required string ChartLine { get; init; }
}

/// <summary>A page of patients by number.</summary>
/// <param name="Patients">The patients.</param>
/// <param name="Next">The number to go on after; null at the end.</param>
public sealed record PatientList(IReadOnlyList<PatientView> Patients, string? Next);

/// <summary>A page of patients whose last visit lies long ago, the longest ago first.</summary>
/// <param name="Patients">The patients.</param>
/// <param name="Next">What to ask with for the next page; null at the end.</param>
public sealed record DueList(IReadOnlyList<DuePatient> Patients, string? Next);

/// <summary>A patient whose last visit lies long ago.</summary>
/// <param name="Patient">The clinic's number, the one that goes on where others are merged into it.</param>
/// <param name="LastVisit">When the last exam opened, in UTC.</param>
/// <param name="Exam">That exam's number.</param>
public sealed record DuePatient(string Patient, DateTimeOffset LastVisit, long Exam);

/// <summary>One patient.</summary>
/// <param name="Patient">The clinic's number.</param>
/// <param name="Name">The name, if the clinic keeps one; null if not, or if it has been erased.</param>
/// <param name="BirthDate">The date of birth, if known.</param>
public sealed record PatientView(string Patient, string? Name, DateOnly? BirthDate)
{
    /// <summary>The number that goes on for this person, where this one is merged into it; null where it is merged into none.</summary>
    public string? MergedInto { get; init; }

    /// <summary>That what identified the patient was erased; null where it was not. The number is then one that stands for nobody.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ErasureView? Erasure { get; init; }
}

/// <summary>A merging of two patients' numbers, while it stands.</summary>
/// <param name="Kept">The number that goes on.</param>
/// <param name="Merged">The number that is not to be used any more.</param>
/// <param name="Who">Who merged them.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Merging">The entry's id, by which it is taken back.</param>
/// <param name="Sequence">Its place in the journal.</param>
public sealed record MergingView(
    string Kept,
    string Merged,
    string Who,
    DateTimeOffset At,
    string Merging,
    long Sequence
);

/// <summary>The chart text of an exam.</summary>
/// <param name="Exam">The exam's number.</param>
/// <param name="Line">The text in one line.</param>
/// <param name="Block">The text over several lines, right above left.</param>
/// <param name="Full">The same with findings, cautions and timing.</param>
public sealed record ChartView(long Exam, string Line, string Block, string Full)
{
    /// <summary>What the criteria say, as in the whole exam; null where it stands beside the chart text.</summary>
    public IReadOnlyList<FindingView>? Findings { get; init; }
}
