using System.Text.Json.Serialization;
using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Views;

/// <summary>One exam whole, for reading: every finding with the raw reading at hand.</summary>
public sealed record ExamView
{
    /// <summary>What the list shows of it.</summary>
    public required ExamSummary Summary { get; init; }

    /// <summary>That what identified its patient was erased; null where it was not.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ErasureView? Erasure { get; init; }

    /// <summary>How it ended for the instrument; null while it takes events.</summary>
    public required ClosingView? Closing { get; init; }

    /// <summary>The sizes, the ones that count first, superseded ones after them.</summary>
    public required IReadOnlyList<SizeView> Sizes { get; init; }

    /// <summary>The judgements, the ones that count first.</summary>
    public required IReadOnlyList<JudgementView> Judgements { get; init; }

    /// <summary>The stimuli in their order.</summary>
    public required IReadOnlyList<StimulusView> Stimuli { get; init; }

    /// <summary>The state of the eyes before the test.</summary>
    public required IReadOnlyList<EyeStatusView> EyeStatuses { get; init; }

    /// <summary>Free remarks.</summary>
    public required IReadOnlyList<NoteView> Notes { get; init; }

    /// <summary>What went wrong, or should be known.</summary>
    public required IReadOnlyList<IncidentView> Incidents { get; init; }

    /// <summary>What is still asked for.</summary>
    public required AskedForView AskedFor { get; init; }

    /// <summary>How great a relative afferent defect was found to be, and what can be entered of it next.</summary>
    public required DefectGradeView DefectGrade { get; init; }

    /// <summary>What every criterion says: met first, then what cannot be told, not met, and not examined.</summary>
    public required IReadOnlyList<FindingView> Findings { get; init; }

    /// <summary>The chart text.</summary>
    public required ChartView Chart { get; init; }
}

/// <summary>How an exam ended for the instrument.</summary>
/// <param name="At">When, in UTC.</param>
/// <param name="Reason">Why, in a word.</param>
public sealed record ClosingView(DateTimeOffset At, string Reason);

/// <summary>One measurement of one pupil.</summary>
public sealed record SizeView
{
    /// <summary><c>OD</c> or <c>OS</c>.</summary>
    public required string Eye { get; init; }

    /// <summary><c>bright</c> or <c>dim</c>; null if the room light was not said.</summary>
    public required string? Light { get; init; }

    /// <summary><c>far</c> or <c>near</c>; null if it was not said where the patient looked.</summary>
    public required string? Fixation { get; init; }

    /// <summary>The diameter in mm.</summary>
    public required double Millimetres { get; init; }

    /// <summary>Its expanded uncertainty in mm, for about 95 %.</summary>
    public required double UncertaintyMillimetres { get; init; }

    /// <summary>Whether reference discs stand behind it.</summary>
    public required bool IsCalibrated { get; init; }

    /// <summary>The nasal position as read, in µm.</summary>
    public required int NasalMicrometres { get; init; }

    /// <summary>The temporal position as read, in µm.</summary>
    public required int TemporalMicrometres { get; init; }

    /// <summary>Whether the nasal edge was taken with the scale at home.</summary>
    public required bool NasalEdgeAtHome { get; init; }

    /// <summary>How long the eye had been in the dark, in seconds; null where the light was not dim.</summary>
    public required double? DarkSeconds { get; init; }

    /// <summary>When it was taken, in UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The journal sequence of the entry that completed it.</summary>
    public required long Sequence { get; init; }

    /// <summary>Whether a later one of the same eye and light goes before it.</summary>
    public required bool IsSuperseded { get; init; }
}

/// <summary>Something a person judged.</summary>
public sealed record JudgementView
{
    /// <summary>The judgement in words.</summary>
    public required string Judgement { get; init; }

    /// <summary>Who judged.</summary>
    public required string Who { get; init; }

    /// <summary>When it was entered, in UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The id of the entry, by which it can be taken back.</summary>
    public required string EntryId { get; init; }

    /// <summary>Its place in the journal.</summary>
    public required long Sequence { get; init; }

    /// <summary>Whether it counts.</summary>
    public required bool Counts { get; init; }

    /// <summary>Why it does not count; null if it does.</summary>
    public required string? WhyNot { get; init; }
}

/// <summary>One lamp-on interval in one eye.</summary>
public sealed record StimulusView
{
    /// <summary><c>OD</c> or <c>OS</c>.</summary>
    public required string Eye { get; init; }

    /// <summary>The block it belongs to.</summary>
    public required string Block { get; init; }

    /// <summary>Which run of its block, from 1; 0 if it belongs to no block.</summary>
    public required int Run { get; init; }

    /// <summary>How long the lamp was on, in ms, by the instrument's own ticks; null if not known.</summary>
    public required long? DwellMilliseconds { get; init; }

    /// <summary>How the dwell stands to the profile.</summary>
    public required string Timing { get; init; }

    /// <summary>The journal sequence that names it.</summary>
    public required long Sequence { get; init; }
}

/// <summary>The state of one eye before the test.</summary>
/// <param name="Eye"><c>OD</c> or <c>OS</c>.</param>
/// <param name="Conditions">What holds of it, in the words of <see cref="EyeStatusEntry.Conditions"/>.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="EntryId">The id of the entry.</param>
/// <param name="Counts">Whether it was not taken back or replaced.</param>
public sealed record EyeStatusView(
    string Eye,
    IReadOnlyList<string> Conditions,
    string Who,
    DateTimeOffset At,
    string EntryId,
    bool Counts
);

/// <summary>A free remark.</summary>
/// <param name="Text">The remark; null once it has been erased.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="EntryId">The id of the entry.</param>
/// <param name="Counts">Whether it was not taken back.</param>
public sealed record NoteView(string? Text, string Who, DateTimeOffset At, string EntryId, bool Counts);

/// <summary>Something that went wrong, or that a reader should know.</summary>
/// <param name="What">What, in words.</param>
/// <param name="Detail">More about it; may be empty.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Sequence">The journal entry by which it is known.</param>
public sealed record IncidentView(string What, string Detail, DateTimeOffset At, long Sequence);
