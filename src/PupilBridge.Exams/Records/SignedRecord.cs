using PupilBridge.Exams.Values;

namespace PupilBridge.Exams.Records;

/// <summary>
/// The document that a clinician signs: all that an exam came to, with where each value stands in the journal. Its text is
/// made once, by <see cref="SignedRecordText.Write"/>, and kept as it is. Words stand as text, lengths as whole micrometres,
/// times as ISO 8601 in UTC, so that it can be read without this program.
/// </summary>
public sealed record SignedRecord
{
    /// <summary>The value of <see cref="Format"/>.</summary>
    public const string FormatName = "pupilbridge-record";

    /// <summary>
    /// The newest format that is written, and read. Format 3 has <see cref="Calibration"/> and <see cref="Lamps"/>; format 2 had neither,
    /// and brought <see cref="Findings"/>; format 1 had none of them.
    /// </summary>
    public const int NewestFormat = 3;

    /// <summary>Always <see cref="FormatName"/>.</summary>
    public required string Format { get; init; }

    /// <summary>The format's version, from 1.</summary>
    public required int FormatVersion { get; init; }

    /// <summary>The exam's number.</summary>
    public required long Exam { get; init; }

    /// <summary>Which version of the exam's record this is, from 1; later ones amend.</summary>
    public required int Version { get; init; }

    /// <summary>The digest of the version before; null for the first, and where that has been erased.</summary>
    public required string? PreviousDigest { get; init; }

    /// <summary>Why this version amends the one before; null for the first.</summary>
    public required string? AmendmentReason { get; init; }

    /// <summary>The patient's number; null if the exam is attached to nobody.</summary>
    public required string? Patient { get; init; }

    /// <summary>The version of the program that made this record.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>How the exam began.</summary>
    public required RecordBorder Opened { get; init; }

    /// <summary>How it ended for the instrument; null if it has not.</summary>
    public required RecordBorder? Closed { get; init; }

    /// <summary>The journal's entries that belong to the exam.</summary>
    public required ValueList<RecordRange> Journal { get; init; }

    /// <summary>The instrument.</summary>
    public required RecordInstrument Instrument { get; init; }

    /// <summary>The calibration behind the sizes; null only in formats 1 and 2, which did not say.</summary>
    public RecordCalibration? Calibration { get; init; }

    /// <summary>The last comparison of the lamps before the exam; null if they were never compared, and in formats 1 and 2.</summary>
    public RecordLamps? Lamps { get; init; }

    /// <summary>The profile in force.</summary>
    public required RecordProfile Profile { get; init; }

    /// <summary>What each grade means.</summary>
    public required RecordLegend Legend { get; init; }

    /// <summary>The steps, in the profile's order.</summary>
    public required ValueList<RecordStep> Steps { get; init; }

    /// <summary>All captures, superseded ones included.</summary>
    public required ValueList<RecordSize> Sizes { get; init; }

    /// <summary>Positions that became no size.</summary>
    public required ValueList<RecordRefusedPairs> RefusedPairs { get; init; }

    /// <summary>The judgements, those taken back included.</summary>
    public required ValueList<RecordJudgement> Judgements { get; init; }

    /// <summary>The judgements that do not count.</summary>
    public required ValueList<RecordJudgement> RefusedJudgements { get; init; }

    /// <summary>What the swinging test adds up to.</summary>
    public required RecordSwinging Swinging { get; init; }

    /// <summary>The runs of the blocks and the timing of their stimuli.</summary>
    public required ValueList<RecordRun> Runs { get; init; }

    /// <summary>
    /// When each lamp was on, by run and eye; empty in format 1, and where there was no stimulus. What became of each is summed up in
    /// <see cref="Runs"/>.
    /// </summary>
    public ValueList<RecordTrain> Trains { get; init; }

    /// <summary>The states of the eyes.</summary>
    public required ValueList<RecordEyeStatus> EyeStatuses { get; init; }

    /// <summary>Remarks that were not taken back.</summary>
    public required ValueList<RecordNote> Notes { get; init; }

    /// <summary>What went wrong, gaps included.</summary>
    public required ValueList<RecordIncident> Incidents { get; init; }

    /// <summary>What people did to the exam as a whole.</summary>
    public required ValueList<RecordCourse> Course { get; init; }

    /// <summary>
    /// What every criterion said, in the order in which findings are listed; empty in format 1. No finding is a diagnosis.
    /// </summary>
    public ValueList<RecordFinding> Findings { get; init; }

    /// <summary>The chart text. Nothing that was not examined is written in it as normal.</summary>
    public required RecordChart Chart { get; init; }
}

/// <summary>The chart text.</summary>
/// <param name="Line">In one line.</param>
/// <param name="Block">Over several lines, with the caution.</param>
public sealed record RecordChart(string Line, ValueList<string> Block);
