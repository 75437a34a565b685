using System.Text.Json.Serialization;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>Where an exam stands.</summary>
[System.Diagnostics.CodeAnalysis.SuppressMessage(
    "Naming",
    "CA1720",
    Justification = "Signed is the trade's word for it, and no number is near."
)]
public enum ExamStatus
{
    /// <summary>Not done yet; it may still be over for the instrument (<see cref="Exam.Closing"/>).</summary>
    Open = 1,

    /// <summary>Done, and waiting for someone to look at it.</summary>
    ReadyForReview = 2,

    /// <summary>Its record was signed once.</summary>
    Signed = 3,

    /// <summary>Its record was signed again, after an amendment.</summary>
    Amended = 4,

    /// <summary>Not to be used.</summary>
    SetAside = 5,
}

/// <summary>Why an exam takes no more events.</summary>
public enum ClosingReason
{
    /// <summary>It was made ready for review.</summary>
    MadeReady = 1,

    /// <summary>The instrument was switched off.</summary>
    SwitchedOff = 2,

    /// <summary>Nothing happened for as long as the profile allows.</summary>
    Silence = 3,

    /// <summary>The dial went to <c>measure</c> again after the swinging blocks.</summary>
    MeasureAgain = 4,

    /// <summary>Another exam was opened on the same instrument.</summary>
    AnotherOpened = 5,

    /// <summary>It was set aside.</summary>
    SetAside = 6,

    /// <summary>What followed was split off.</summary>
    Split = 7,
}

/// <summary>How an exam began.</summary>
/// <param name="When">When, and by which entry.</param>
/// <param name="ByPerson">The person who opened it; null if it opened by itself.</param>
/// <param name="EventSequence">The number of the event that opened it within its boot; null if a person did.</param>
public sealed record Opening(Moment When, PersonId? ByPerson, long? EventSequence);

/// <summary>How an exam ended for the instrument.</summary>
/// <param name="When">When, and by which entry.</param>
/// <param name="Reason">Why.</param>
public sealed record Closing(Moment When, ClosingReason Reason);

/// <summary>What the instrument said of itself when the exam opened, as far as it is known.</summary>
/// <param name="Sequence">The entry that said it.</param>
/// <param name="Model">The model.</param>
/// <param name="Firmware">The version of its program.</param>
/// <param name="Abilities">What it can do.</param>
/// <param name="Scales">Its two scales.</param>
public sealed record InstrumentFacts(
    JournalSequence Sequence,
    string Model,
    string Firmware,
    InstrumentAbilities Abilities,
    PerEye<ScaleDescription> Scales
);

/// <summary>
/// What the journal's entries of one sitting add up to: facts only, each with its place in the journal. What follows from
/// them (sizes, runs of blocks, outcomes, what is asked for) is computed by the views.
/// </summary>
public sealed record Exam
{
    /// <summary>Its name: the journal sequence of the entry that opened it.</summary>
    public required ExamId Id { get; init; }

    /// <summary>The instrument's serial number.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>Whose exam it is; null if nobody said yet.</summary>
    public required PatientId? Patient { get; init; }

    /// <summary>Where it stands.</summary>
    public required ExamStatus Status { get; init; }

    /// <summary>How it began.</summary>
    public required Opening Opening { get; init; }

    /// <summary>How it ended for the instrument; null while it takes events.</summary>
    public required Closing? Closing { get; init; }

    /// <summary>The last moment that the instrument or a person gave to it.</summary>
    public required Moment LastActivity { get; init; }

    /// <summary>The profile in force when it opened.</summary>
    public required Profile Profile { get; init; }

    /// <summary>The program's version when it opened.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>What the instrument said of itself; null if it never did.</summary>
    public required InstrumentFacts? Instrument { get; init; }

    /// <summary>What makes it a bench run; null for an exam of a patient.</summary>
    public BenchRun? Bench { get; init; }

    /// <summary>The calibration that was in force when it opened and corrects its diameters; null if there was none.</summary>
    public IssuedCalibration? Calibration { get; init; }

    /// <summary>The last measurement of the lamps before it opened; null if there was none.</summary>
    public LampBalanceRecord? LampBalance { get; init; }

    /// <summary>The repeatability on living people that stands in its profile; null where the profile's own does.</summary>
    public AdoptedRepeatability? Repeatability { get; init; }

    /// <summary>Where each scale came to rest at home.</summary>
    public PerEye<HomeRests> HomeRests { get; init; } = new() { Right = default, Left = default };

    /// <summary>What the instrument measured of its own lamps.</summary>
    public ValueList<LampOutputReading> LampOutputs { get; init; }

    /// <summary>All entries of the journal that belong to it, in order.</summary>
    public ValueList<SequenceRange> Entries { get; init; }

    /// <summary>The dial's moves.</summary>
    public ValueList<DialMove> Dial { get; init; }

    /// <summary>What the room light was said to be.</summary>
    public ValueList<LightSaid> Light { get; init; }

    /// <summary>Where the patient was said to look.</summary>
    public ValueList<FixationSaid> Fixations { get; init; }

    /// <summary>The viewing lens.</summary>
    public ValueList<LensMove> Lens { get; init; }

    /// <summary>The captures, superseded ones included.</summary>
    public ValueList<Capture> Captures { get; init; }

    /// <summary>Positions that became no capture.</summary>
    public ValueList<RefusedPair> RefusedPairs { get; init; }

    /// <summary>The stimuli.</summary>
    public ValueList<Stimulus> Stimuli { get; init; }

    /// <summary>The judgements that count, or counted until they were taken back.</summary>
    public ValueList<JudgementRecord> Judgements { get; init; }

    /// <summary>The judgements that do not count.</summary>
    public ValueList<RefusedJudgement> RefusedJudgements { get; init; }

    /// <summary>The states of the eyes.</summary>
    public ValueList<EyeStatusRecord> EyeStatuses { get; init; }

    /// <summary>What was seen through neutral-density filters; <see cref="Views.DefectGrades"/> reads them as brackets.</summary>
    public ValueList<FilterStepRecord> FilterSteps { get; init; }

    /// <summary>Grades on the scale of Bell 1993.</summary>
    public ValueList<BellGradeRecord> BellGrades { get; init; }

    /// <summary>Free remarks.</summary>
    public ValueList<NoteRecord> Notes { get; init; }

    /// <summary>What was accepted as not examined.</summary>
    public ValueList<NotExaminedRecord> NotExamined { get; init; }

    /// <summary>What people did to the exam as a whole.</summary>
    public ValueList<CourseRecord> Course { get; init; }

    /// <summary>What went wrong, or should be known.</summary>
    public ValueList<Incident> Incidents { get; init; }

    /// <summary>The versions of its record that were signed, the first one first. None of them ever changes.</summary>
    public ValueList<SignedVersion> SignedVersions { get; init; }

    /// <summary>The amendment that was begun and is not signed yet; null if there is none.</summary>
    public Amendment? Amendment { get; init; }

    /// <summary>What became of sending its signed versions to other systems, in order.</summary>
    public ValueList<Sending> Sendings { get; init; }

    /// <summary>The texts that people entered about it, as far as they are sealed: their keys go with its patient.</summary>
    public ValueList<SealedText> SealedTexts { get; init; }

    /// <summary>That what identified its patient was erased; null as long as it was not.</summary>
    public Erasure? Erasure { get; init; }

    /// <summary>The names of people's entries that it took, so that none is taken twice.</summary>
    public ValueList<EntryId> EntryIds { get; init; }

    /// <summary>The corrections of both scales by <see cref="Calibration"/>; null if it has none.</summary>
    [JsonIgnore]
    public PerEye<ICorrection>? Corrections => Calibration?.Corrections;

    /// <summary>Whether it still takes events as they come.</summary>
    public bool TakesEvents => Closing is null;

    /// <summary>Whether it is over for the instrument though nobody made it ready: over, not ready.</summary>
    public bool IsLeftOpen => Closing is not null && Status == ExamStatus.Open;

    /// <summary>
    /// Whether an amendment was begun and is not signed yet: people's entries apply to it, and what was signed before still
    /// stands. Its status stays signed or amended.
    /// </summary>
    public bool IsBeingAmended => Amendment is not null;

    /// <summary>Whether it was signed and no amendment was begun since, so that no person's entry changes it.</summary>
    public bool IsSealed => SignedVersions.Count > 0 && Amendment is null;
}
